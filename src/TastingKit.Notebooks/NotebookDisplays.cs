using Microsoft.DotNet.Interactive.Formatting;
using TastingKit.Charts;

namespace TastingKit.Notebooks;

/// <summary>How notebooks show the kit's values: the library's own HTML and text, nothing made up here.</summary>
internal static class NotebookDisplays
{
    internal static void Register()
    {
        Formatter.Register<NotebookSetUp>((setUp, writer) => writer.Write(setUp.Html), HtmlFormatter.MimeType);
        Formatter.Register<NotebookSetUp>((setUp, writer) => writer.Write(setUp.ToString()), PlainTextFormatter.MimeType);
        Formatter.SetPreferredMimeTypesFor(typeof(NotebookSetUp), HtmlFormatter.MimeType, PlainTextFormatter.MimeType);
        foreach (var display in ValueDisplay.All)
            Register(display);
    }

    private static void Register(ValueDisplay display)
    {
        Formatter.Register(display.Type, (value, writer) => writer.Write(display.ToText(value)), PlainTextFormatter.MimeType);
        if (display.HasHtml)
            Formatter.Register(display.Type, (value, writer) => writer.Write(display.ToHtml(value)), HtmlFormatter.MimeType);
        // A number alone is text; the default would wrap it in markup with a style sheet for the whole page.
        string[] types = display.HasHtml ? [HtmlFormatter.MimeType, PlainTextFormatter.MimeType] : [PlainTextFormatter.MimeType];
        Formatter.SetPreferredMimeTypesFor(display.Type, types);
    }
}
