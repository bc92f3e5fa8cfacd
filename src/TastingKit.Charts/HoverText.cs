namespace TastingKit.Charts;

/// <summary>What a mark says when it is pointed at: narrow enough for a phone.</summary>
internal static class HoverText
{
    private const int LineWidth = 36;
    private const double PixelsOfLine = 16.9;

    /// <summary>The label's own, and what letters of other scripts take above and below their line.</summary>
    private const int PixelsAround = 24;

    /// <summary>A heading and lines under it, all shown as they stand.</summary>
    /// <param name="heading">What the mark is, any text.</param>
    /// <param name="lines">Its figures; empty lines are left out.</param>
    public static string Of(string heading, params ReadOnlySpan<string> lines)
    {
        var text = ShortText.Wrap(ShortText.Cut(heading, 6 * LineWidth), LineWidth).Select(ChartText.Bold).ToList();
        foreach (var line in lines)
            text.AddRange(ShortText.Wrap(ShortText.Cut(line, 6 * LineWidth), LineWidth).Select(ChartText.Literal));
        return string.Join(ChartText.LineBreak, text);
    }

    /// <summary>The height that a chart needs for this to be shown: plotly.js drops what is taller than its chart, and shows nothing.</summary>
    /// <param name="hover">What <see cref="Of"/> gave.</param>
    public static int Pixels(string hover) =>
        PixelsAround + (int)Math.Ceiling(PixelsOfLine * hover.Split(ChartText.LineBreak).Length);
}
