using System.Reflection;

namespace TastingKit.Charts;

/// <summary>
/// plotly.js for a page: unpacked by the browser itself, from the page itself, without a network. Once a page, before or
/// after its charts; in a notebook in the output of the first cell, so that running a chart's cell again does not lose it.
/// </summary>
public static class PlotlyLoader
{
    private const string PackedPlotly = "TastingKit.Charts.Assets.plotly-2.28.0.min.js.gz";
    private const string LoaderSource = "TastingKit.Charts.Assets.loader.js";

    /// <summary>Jupyter's notebook 6 shuts long outputs into a box a few lines high, in which no chart can be read.</summary>
    private const string WholeOutputs = "div.output_scroll:has(.tk) { height: auto; box-shadow: none; }\n";

    private static readonly Lazy<string> Markup = new(Build);

    /// <summary>
    /// The loader as one script element of about 1.4 MB. It works under a content security policy of
    /// <c>default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:</c>.
    /// </summary>
    public static string Html => Markup.Value;

    /// <summary>What the first cell of a notebook says: the kit's version, and that charts need no network.</summary>
    public static string Ready { get; } = $"TastingKit {Version()} is ready. Charts need no network.";

    /// <summary>
    /// <see cref="Ready"/>, the loader, <see cref="Stylesheet"/> and <see cref="TableScript"/> in one element: what the first cell of a notebook shows.
    /// </summary>
    public static string HtmlWithStylesheet =>
        $"<div class=\"tk tk-set-up\">\n<p>{HtmlText.Escape(Ready)}</p>\n<style>\n{Stylesheet.Css}{WholeOutputs}</style>\n{TableScript.Html}{Html}</div>\n";

    /// <summary>The version without the commit that the build adds to it.</summary>
    private static string Version() =>
        typeof(PlotlyLoader).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0];

    private static string Build()
    {
        using var reader = new StreamReader(Resource(LoaderSource));
        using var packed = new MemoryStream();
        using (var resource = Resource(PackedPlotly))
            resource.CopyTo(packed);
        var script = reader.ReadToEnd().Replace("@plotly@", Convert.ToBase64String(packed.GetBuffer(), 0, (int)packed.Length), StringComparison.Ordinal);
        return $"<script>\n{script}</script>\n";
    }

    private static Stream Resource(string name) => typeof(PlotlyLoader).Assembly.GetManifestResourceStream(name)
        ?? throw new InvalidOperationException($"The resource {name} is missing from the assembly.");
}
