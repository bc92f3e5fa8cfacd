using System.Text;

namespace TastingKit.Charts;

/// <summary>Text for the inside of a figure, where Plotly reads a little markup of its own.</summary>
public static class ChartText
{
    /// <summary>The line break of a figure's text.</summary>
    public const string LineBreak = "<br>";

    /// <summary>
    /// Text shown as it stands, wherever it comes from: markup, entities, Plotly's <c>%{…}</c> references and mathematics
    /// between dollar signs (which a notebook's page would typeset) lose their meaning; tabs and line breaks become spaces. What would be
    /// obeyed rather than seen is as <see cref="SeenText"/> has it, and a name written from right to left leaves its neighbours alone.
    /// </summary>
    /// <param name="text">Any text.</param>
    public static string Literal(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var literal = new StringBuilder(text.Length);
        foreach (var character in SeenText.SetApart(SeenText.Of(text)))
        {
            _ = character switch
            {
                '&' => literal.Append("&amp;"),
                '<' => literal.Append("&lt;"),
                '>' => literal.Append("&gt;"),
                '$' => literal.Append("&#36;"),
                '%' => literal.Append("&#37;"),
                '\t' or '\n' => literal.Append(' '),
                _ => literal.Append(character),
            };
        }

        return literal.ToString();
    }

    /// <summary>Text in bold, shown as it stands.</summary>
    public static string Bold(string text) => $"<b>{Literal(text)}</b>";
}
