using System.Globalization;
using System.Text;

namespace TastingKit;

/// <summary>
/// Renders a laid-out result as HTML that reads well alone and better with <see cref="Stylesheet"/>. Every text is escaped.
/// </summary>
public static class HtmlRenderer
{
    /// <summary>Rows of a table that are seen before a reader asks for all of them. The stylesheet has the same number.</summary>
    internal const int RowsSeen = 12;

    private const int LongestWord = 32;
    private const int LongestFigures = 24;

    /// <summary>The layout as one HTML section.</summary>
    public static string Render(ResultLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var html = new StringBuilder("<section class=\"tk tex2jax_ignore mathjax_ignore\">\n");
        Append(html, layout.Blocks);
        return html.Append("</section>\n").ToString();
    }

    private static void Append(StringBuilder html, IReadOnlyList<LayoutBlock> blocks)
    {
        foreach (var block in blocks)
        {
            switch (block)
            {
                case LayoutBlock.Lead lead:
                    html.Append(CultureInfo.InvariantCulture, $"<p class=\"tk-lead\">{HtmlText.Sentence(lead.Text)}</p>\n");
                    break;
                case LayoutBlock.Paragraph paragraph:
                    html.Append(CultureInfo.InvariantCulture, $"<p>{HtmlText.Sentence(paragraph.Text)}</p>\n");
                    break;
                case LayoutBlock.Cautions cautions:
                    AppendCautions(html, cautions.Items);
                    break;
                case LayoutBlock.Table table:
                    AppendTable(html, table.Contents);
                    break;
                case LayoutBlock.Folded folded:
                    html.Append(CultureInfo.InvariantCulture, $"<details class=\"tk-folded\">\n<summary>{HtmlText.Sentence(folded.Title)}</summary>\n");
                    Append(html, folded.Blocks);
                    html.Append("</details>\n");
                    break;
                default:
                    throw new InvalidOperationException("The cases of LayoutBlock are closed.");
            }
        }
    }

    private static void AppendCautions(StringBuilder html, IReadOnlyList<Caution> cautions)
    {
        html.Append("<ul class=\"tk-cautions\" aria-label=\"Cautions\">\n");
        foreach (var caution in cautions)
            html.Append(CultureInfo.InvariantCulture, $"<li><strong>Caution:</strong> {HtmlText.Sentence(caution.Text)}</li>\n");
        html.Append("</ul>\n");
    }

    private static void AppendTable(StringBuilder html, ResultTable table)
    {
        var cells = TastingKit.CellText.Of(table);
        var title = HtmlText.Escape(LongText.Cut(table.Title, LongText.Title));
        var isLong = table.Rows.Count > RowsSeen;
        html.Append(CultureInfo.InvariantCulture, $"<div class=\"tk-table{(isLong ? " tk-long" : "")}\">\n");
        // A wide table scrolls in its own box, which the keyboard must be able to reach.
        html.Append(CultureInfo.InvariantCulture, $"<div class=\"tk-scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{title}\">\n");
        html.Append(CultureInfo.InvariantCulture, $"<table>\n<caption>{title}</caption>\n<thead><tr>");
        for (var c = 0; c < table.Columns.Count; c++)
            html.Append(CultureInfo.InvariantCulture, $"<th scope=\"col\"{Classes(table, c, cells[0][c])}>{HtmlText.Escape(LongText.Cut(cells[0][c], LongText.Title))}</th>");
        html.Append("</tr></thead>\n<tbody>\n");
        foreach (var row in cells.Skip(1))
            AppendRow(html, table, row);
        html.Append("</tbody>\n</table>\n</div>\n");
        // All rows are in the page; a check box, not a script, hides those beyond the first few.
        if (isLong)
            html.Append(CultureInfo.InvariantCulture, $"<label class=\"tk-all\"><input type=\"checkbox\"> Show all {table.Rows.Count} rows</label>\n");
        html.Append("</div>\n");
    }

    private static void AppendRow(StringBuilder html, ResultTable table, string[] row)
    {
        html.Append("<tr>");
        for (var c = 0; c < row.Length; c++)
        {
            var (text, classes) = (CellText(row[c]), Classes(table, c, row[c]));
            html.Append(c == 0 && table.Columns[c].Kind == ColumnKind.Text
                ? $"<th scope=\"row\"{classes}>{text}</th>"
                : $"<td{classes}>{text}</td>");
        }

        html.Append("</tr>\n");
    }

    /// <summary>The text of a cell; of a very long one the beginning, and the whole where a reader asks for it.</summary>
    private static string CellText(string text)
    {
        var (whole, beginning) = (HtmlText.Escape(text), HtmlText.Escape(LongText.Cut(text, LongText.Cell)));
        return whole == beginning ? whole : $"<details class=\"tk-whole\"><summary>{beginning}</summary>{whole}</details>";
    }

    private static string Classes(ResultTable table, int column, string text)
    {
        // Only where a word is too long for any column may a line end inside it.
        var kind = table.Columns[column].Kind != ColumnKind.Text ? "tk-number" : IsFigures(text) ? "tk-figures" : "";
        var classes = new[] { kind, HasLongWord(text) ? "tk-broken" : "" };
        return string.Join(' ', classes.Where(name => name.Length > 0)) is { Length: > 0 } names ? $" class=\"{names}\"" : "";
    }

    /// <summary>Whether a text is a date, a list of scores or the like, which reads badly over two lines.</summary>
    private static bool IsFigures(string text) => text.Length <= LongestFigures && text.Any(char.IsAsciiDigit) && !text.Any(char.IsLetter);

    private static bool HasLongWord(string text)
    {
        var length = 0;
        foreach (var character in text)
        {
            length = char.IsWhiteSpace(character) ? 0 : length + 1;
            if (length > LongestWord)
                return true;
        }

        return false;
    }
}
