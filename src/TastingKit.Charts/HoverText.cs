namespace TastingKit.Charts;

/// <summary>What a mark says when it is pointed at: narrow enough for a phone.</summary>
internal static class HoverText
{
    private const int LineWidth = 36;

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
}
