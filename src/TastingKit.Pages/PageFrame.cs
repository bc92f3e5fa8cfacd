using System.Globalization;
using System.Text;

namespace TastingKit.Pages;

/// <summary>What every page has around its contents: a head that allows no request, the stylesheets, and the foot.</summary>
internal static class PageFrame
{
    private const string Policy =
        "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

    /// <summary>All up to the contents, which stand in an element with the identifier <c>content</c>.</summary>
    internal static void AppendHead(StringBuilder html, string title)
    {
        html.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        html.Append(CultureInfo.InvariantCulture, $"<meta http-equiv=\"Content-Security-Policy\" content=\"{Policy}\">\n");
        html.Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.Append("<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n");
        // Browsers ask for an icon by themselves unless the page names one.
        html.Append("<link rel=\"icon\" href=\"data:,\">\n");
        html.Append(CultureInfo.InvariantCulture, $"<title>{HtmlText.Escape(title)}</title>\n");
        html.Append(CultureInfo.InvariantCulture, $"<style>\n{Stylesheet.Css}{PageStylesheet.Css}</style>\n</head>\n");
        html.Append("<body class=\"tk tk-page\">\n<a class=\"tk-skip\" href=\"#content\">Skip to the contents</a>\n");
    }

    /// <summary>The cautions of the trade, and where the page came from.</summary>
    /// <param name="html">The page.</param>
    /// <param name="origin">What the page was made with, plain text without a full stop.</param>
    internal static void AppendFooter(StringBuilder html, string origin)
    {
        html.Append("<footer>\n");
        html.Append("<p>Many cups in one day are much caffeine: halve doses, share or spit, and ask a doctor what is right for you.</p>\n");
        html.Append("<p>Boiling water scalds, and a coffee with something added may hold an allergen: follow the label and local advice.</p>\n");
        html.Append(CultureInfo.InvariantCulture, $"<p>Made by TastingKit{HtmlText.Sentence(origin)}. This page works without a network.</p>\n");
        html.Append("</footer>\n");
    }
}
