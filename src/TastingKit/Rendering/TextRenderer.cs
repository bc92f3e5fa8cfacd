using System.Text;

namespace TastingKit;

/// <summary>
/// Renders a laid-out result as plain text for terminals and screen readers, every text as <see cref="SeenText"/> has it.
/// </summary>
public static class TextRenderer
{
    /// <summary>Widest column of words; longer text goes on below itself.</summary>
    private const int WidestText = 34;

    private const string Gap = "  ";

    /// <summary>The layout as text with line feeds, a blank line between blocks.</summary>
    public static string Render(ResultLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var text = new StringBuilder();
        Append(text, layout.Blocks, "");
        return text.ToString().TrimEnd('\n') + "\n";
    }

    private static void Append(StringBuilder text, IReadOnlyList<LayoutBlock> blocks, string indent)
    {
        foreach (var block in blocks)
        {
            switch (block)
            {
                case LayoutBlock.Lead lead:
                    text.Append(indent).Append(Plain(lead.Text, LongText.Sentence)).Append("\n\n");
                    break;
                case LayoutBlock.Paragraph paragraph:
                    text.Append(indent).Append(Plain(paragraph.Text, LongText.Sentence)).Append("\n\n");
                    break;
                case LayoutBlock.Cautions cautions:
                    foreach (var caution in cautions.Items)
                        text.Append(indent).Append("Caution: ").Append(Plain(caution.Text, LongText.Sentence)).Append('\n');
                    text.Append('\n');
                    break;
                case LayoutBlock.Table table:
                    AppendTable(text, table.Contents, indent);
                    break;
                case LayoutBlock.Folded folded:
                    text.Append(indent).Append(Plain(folded.Title, LongText.Sentence)).Append(":\n");
                    Append(text, folded.Blocks, indent + "  ");
                    break;
                default:
                    throw new InvalidOperationException("The cases of LayoutBlock are closed.");
            }
        }
    }

    private static void AppendTable(StringBuilder text, ResultTable table, string indent)
    {
        var rows = CellText.Of(table).Select(row => row.Select(cell => Wrap(Plain(cell, LongText.Cell))).ToArray()).ToArray();
        var widths = Enumerable.Range(0, table.Columns.Count).Select(c => rows.Max(row => row[c].Max(line => line.Length))).ToArray();
        text.Append(indent).Append(Plain(table.Title, LongText.Title)).Append('\n');
        foreach (var row in rows)
        {
            for (var l = 0; l < row.Max(cell => cell.Count); l++)
            {
                var line = string.Join(Gap, row.Select((cell, c) => Align(l < cell.Count ? cell[l] : "", widths[c], table.Columns[c].Kind)));
                text.Append((indent + line).TrimEnd()).Append('\n');
            }
        }

        text.Append('\n');
    }

    private static string Align(string text, int width, ColumnKind kind) => kind == ColumnKind.Text ? text.PadRight(width) : text.PadLeft(width);

    /// <summary>Breaks text at spaces; a word longer than a line is cut.</summary>
    private static List<string> Wrap(string text)
    {
        var lines = new List<string>();
        while (text.Length > WidestText)
        {
            var space = text.LastIndexOf(' ', WidestText);
            var end = space > 0 ? space : WidestText;
            lines.Add(text[..end]);
            text = text[(space > 0 ? end + 1 : end)..];
        }

        lines.Add(text);
        return lines;
    }

    /// <summary>The text on one line.</summary>
    private static string Plain(string text, int most) => LongText.Cut(text, most).Replace('\n', ' ').Replace('\t', ' ');
}
