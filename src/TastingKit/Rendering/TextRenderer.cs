using System.Text;

namespace TastingKit;

/// <summary>Renders a laid-out result as plain text for terminals and screen readers.</summary>
public static class TextRenderer
{
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
                    text.Append(indent).Append(lead.Text).Append("\n\n");
                    break;
                case LayoutBlock.Paragraph paragraph:
                    text.Append(indent).Append(paragraph.Text).Append("\n\n");
                    break;
                case LayoutBlock.Cautions cautions:
                    foreach (var caution in cautions.Items)
                        text.Append(indent).Append("Caution: ").Append(caution.Text).Append('\n');
                    text.Append('\n');
                    break;
                case LayoutBlock.Table table:
                    AppendTable(text, table.Contents, indent);
                    break;
                case LayoutBlock.Folded folded:
                    text.Append(indent).Append(folded.Title).Append(":\n");
                    Append(text, folded.Blocks, indent + "  ");
                    break;
            }
        }
    }

    private static void AppendTable(StringBuilder text, ResultTable table, string indent)
    {
        var cells = CellText.Of(table);
        var widths = new int[table.Columns.Count];
        foreach (var row in cells)
        {
            for (var c = 0; c < widths.Length; c++)
                widths[c] = Math.Max(widths[c], row[c].Length);
        }

        text.Append(indent).Append(table.Title).Append('\n');
        foreach (var row in cells)
        {
            var line = new StringBuilder(indent);
            for (var c = 0; c < widths.Length; c++)
            {
                if (c > 0)
                    line.Append("  ");
                line.Append(table.Columns[c].Kind == ColumnKind.Text ? row[c].PadRight(widths[c]) : row[c].PadLeft(widths[c]));
            }

            text.Append(line.ToString().TrimEnd()).Append('\n');
        }

        text.Append('\n');
    }
}
