using System.Text;

namespace TastingKit;

/// <summary>Renders a laid-out result as Markdown (the CommonMark kind, with pipe tables). Every text is escaped.</summary>
public static class MarkdownRenderer
{
    private const string Special = "\\`*_{}[]()#+-.!|~^:=$@\"'";

    /// <summary>The layout as Markdown with line feeds, a blank line between blocks.</summary>
    public static string Render(ResultLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var markdown = new StringBuilder();
        Append(markdown, layout.Blocks);
        return markdown.ToString().TrimEnd('\n') + "\n";
    }

    private static void Append(StringBuilder markdown, IReadOnlyList<LayoutBlock> blocks)
    {
        foreach (var block in blocks)
        {
            switch (block)
            {
                case LayoutBlock.Lead lead:
                    markdown.Append("**").Append(Escape(lead.Text, LongText.Sentence)).Append("**\n\n");
                    break;
                case LayoutBlock.Paragraph paragraph:
                    markdown.Append(Escape(paragraph.Text, LongText.Sentence)).Append("\n\n");
                    break;
                case LayoutBlock.Cautions cautions:
                    foreach (var caution in cautions.Items)
                        markdown.Append("> Caution: ").Append(Escape(caution.Text, LongText.Sentence)).Append("\n>\n");
                    markdown.Length -= 2;
                    markdown.Append('\n');
                    break;
                case LayoutBlock.Table table:
                    AppendTable(markdown, table.Contents);
                    break;
                case LayoutBlock.Folded folded:
                    // Markdown has no folding of its own, and the kit writes no HTML into it: the detail follows in full.
                    markdown.Append('*').Append(Escape(folded.Title, LongText.Sentence)).Append("*\n\n");
                    Append(markdown, folded.Blocks);
                    break;
                default:
                    throw new InvalidOperationException("The cases of LayoutBlock are closed.");
            }
        }
    }

    private static void AppendTable(StringBuilder markdown, ResultTable table)
    {
        markdown.Append(Escape(table.Title, LongText.Title)).Append("\n\n");
        var cells = CellText.Of(table);
        AppendRow(markdown, cells[0]);
        markdown.Append('|');
        foreach (var column in table.Columns)
            markdown.Append(column.Kind == ColumnKind.Text ? " --- |" : " ---: |");
        markdown.Append('\n');
        foreach (var row in cells.Skip(1))
            AppendRow(markdown, row);
        markdown.Append('\n');
    }

    private static void AppendRow(StringBuilder markdown, string[] row)
    {
        markdown.Append('|');
        foreach (var cell in row)
            markdown.Append(' ').Append(Escape(cell, LongText.Cell)).Append(" |");
        markdown.Append('\n');
    }

    /// <summary>
    /// Text that Markdown shows as it stands. A point or a hyphen between letters or digits is left alone, so that figures
    /// stay readable in the source; line breaks become spaces, since a line may open a block.
    /// </summary>
    private static string Escape(string written, int most)
    {
        var text = SeenText.SetApart(LongText.Cut(written, most));
        var escaped = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            var character = text[i];
            // Many renderers make a link of what begins like an address.
            var isInsideWord = !text.AsSpan(0, i).EndsWith("www", StringComparison.OrdinalIgnoreCase) && i > 0 && i + 1 < text.Length && char.IsLetterOrDigit(text[i - 1]) && char.IsLetterOrDigit(text[i + 1]);
            _ = character switch
            {
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '\t' or '\n' => escaped.Append(' '),
                '.' or '-' or '\'' or ':' when isInsideWord => escaped.Append(character),
                _ when Special.Contains(character, StringComparison.Ordinal) => escaped.Append('\\').Append(character),
                _ => escaped.Append(character),
            };
        }

        return escaped.ToString();
    }
}
