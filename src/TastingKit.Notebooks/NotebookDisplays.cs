using Microsoft.Data.Analysis;
using Microsoft.DotNet.Interactive.Formatting;
using TastingKit.Charts;

namespace TastingKit.Notebooks;

/// <summary>How notebooks show the kit's values: the library's own HTML and text, nothing made up here.</summary>
internal static class NotebookDisplays
{
    private static readonly Type[] Scalars =
    [
        typeof(bool), typeof(byte), typeof(short), typeof(int), typeof(long), typeof(float), typeof(double), typeof(decimal),
        typeof(DateTime), typeof(DateOnly), typeof(TimeOnly), typeof(TimeSpan),
    ];

    internal static void Register()
    {
        Show<NotebookSetUp>(setUp => setUp.Html, setUp => setUp.ToString());
        Show<Chart>(chart => chart.ToHtml(), chart => chart.ToString());
        Show<TastingResult>(result => result.ToIllustratedHtml(), result => result.ToString());
        Show<ResultTable>(table => new ResultLayout([new LayoutBlock.Table(table)]));
        Show<TastingLog>(LogLayout.Of);
        Show<IReadOnlyList<LogProblem>>(LogLayout.OfProblems);
        Show<DataFrame>(DataFrameLayout.Of);
        // A number alone is text; the default would wrap it in markup with a style sheet for the whole page.
        foreach (var scalar in Scalars)
            Formatter.SetPreferredMimeTypesFor(scalar, PlainTextFormatter.MimeType);
    }

    private static void Show<T>(Func<T, ResultLayout> layout) =>
        Show<T>(value => HtmlRenderer.Render(layout(value)), value => TextRenderer.Render(layout(value)));

    private static void Show<T>(Func<T, string> html, Func<T, string> text)
    {
        Formatter.Register<T>((value, writer) => writer.Write(html(value)), HtmlFormatter.MimeType);
        Formatter.Register<T>((value, writer) => writer.Write(text(value)), PlainTextFormatter.MimeType);
        Formatter.SetPreferredMimeTypesFor(typeof(T), HtmlFormatter.MimeType, PlainTextFormatter.MimeType);
    }
}
