using System.Globalization;
using Microsoft.Data.Analysis;

namespace TastingKit.Charts;

/// <summary>
/// How values of one type are shown: the one table for notebooks and for pages that are made without a kernel. The kit's own
/// values have HTML and text; single numbers, days and words are text alone.
/// </summary>
public sealed class ValueDisplay
{
    private readonly Func<object, string>? _html;
    private readonly Func<object, string> _text;

    private ValueDisplay(Type type, Func<object, string>? html, Func<object, string> text)
    {
        Type = type;
        _html = html;
        _text = text;
    }

    /// <summary>Every type that has a display of its own, the first that a value is of being the one that counts.</summary>
    public static IReadOnlyList<ValueDisplay> All { get; } =
    [
        Of<Chart>(chart => chart.ToHtml(), chart => chart.ToString()),
        Of<TastingResult>(result => result.ToIllustratedHtml(), result => result.ToString()),
        Of<ResultTable>(table => new ResultLayout([new LayoutBlock.Table(table)])),
        Of<TastingLog>(LogLayout.Of),
        Of<IReadOnlyList<LogProblem>>(LogLayout.OfProblems),
        Of<DataFrame>(DataFrameLayout.Of),
        Of<string>(text => text),
        Of<DateTime>(moment => moment.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)),
        Of<DateOnly>(day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
        Of<TimeOnly>(time => time.ToString("HH:mm:ss", CultureInfo.InvariantCulture)),
        Of<TimeSpan>(span => span.ToString("c", CultureInfo.InvariantCulture)),
        .. new[] { typeof(bool), typeof(char), typeof(byte), typeof(short), typeof(int), typeof(long), typeof(float), typeof(double), typeof(decimal), typeof(Enum) }
            .Select(type => new ValueDisplay(type, null, value => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "")),
    ];

    /// <summary>The type, or the base type or interface, of the values.</summary>
    public Type Type { get; }

    /// <summary>Whether the values have HTML beside their text.</summary>
    public bool HasHtml => _html is not null;

    /// <summary>The display of a value; <see langword="null"/> if its type has none.</summary>
    public static ValueDisplay? For(object value) => All.FirstOrDefault(display => display.Type.IsInstanceOfType(value));

    /// <summary>The value as HTML, all text in it escaped.</summary>
    /// <param name="value">A value of <see cref="Type"/>.</param>
    /// <exception cref="InvalidOperationException">Values of this type are shown as text alone.</exception>
    public string ToHtml(object value) =>
        (_html ?? throw new InvalidOperationException($"A {Type.Name} is shown as text alone: ask for its text."))(value);

    /// <summary>The value as text, for terminals and screen readers.</summary>
    /// <param name="value">A value of <see cref="Type"/>.</param>
    public string ToText(object value) => _text(value);

    private static ValueDisplay Of<T>(Func<T, ResultLayout> layout) =>
        Of<T>(value => HtmlRenderer.Render(layout(value)), value => TextRenderer.Render(layout(value)));

    private static ValueDisplay Of<T>(Func<T, string> html, Func<T, string> text) => new(typeof(T), value => html((T)value), value => text((T)value));

    private static ValueDisplay Of<T>(Func<T, string> text) => new(typeof(T), null, value => text((T)value));
}
