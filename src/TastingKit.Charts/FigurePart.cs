using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>
/// Writes the parts of a figure by their names in the plotly.js reference. The initialisers of Plotly.NET take dozens of
/// F# options, none of which C# may leave out.
/// </summary>
internal static class FigurePart
{
    /// <summary>A nested part, for example a marker or an axis.</summary>
    internal static DynamicObj.DynamicObj Of(params ReadOnlySpan<(string Name, object? Value)> properties) =>
        new DynamicObj.DynamicObj().With(properties);

    /// <summary>A trace of a type of plotly.js, for example <c>scatter</c>.</summary>
    internal static Trace Trace(string type, params ReadOnlySpan<(string Name, object? Value)> properties) => new Trace(type).With(properties);

    /// <summary>A layout.</summary>
    internal static Layout Layout(params ReadOnlySpan<(string Name, object? Value)> properties) => new Layout().With(properties);

    /// <summary>Sets properties; those without a value are left out.</summary>
    internal static T With<T>(this T part, params ReadOnlySpan<(string Name, object? Value)> properties)
        where T : DynamicObj.DynamicObj
    {
        foreach (var (name, value) in properties)
        {
            if (value is not null)
                part.SetProperty(name, value);
        }

        return part;
    }
}
