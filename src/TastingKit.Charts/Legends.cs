namespace TastingKit.Charts;

/// <summary>
/// The legend below a plot: one line an entry on a phone, and room kept for that, since a legend that lacks room hides entries.
/// It only tells; pointing at it hides nothing, so that no estimate can lose its interval.
/// </summary>
internal static class Legends
{
    private const int PixelsAnEntry = 19;

    /// <summary>Room for so many entries.</summary>
    public static int Pixels(int entries) => 6 + (PixelsAnEntry * entries);

    /// <summary>A legend below the plot.</summary>
    /// <param name="below">How far below, as a share of the plot's height.</param>
    public static DynamicObj.DynamicObj Below(double below = 0) => FigurePart.Of(
        ("orientation", "h"), ("x", 0), ("xanchor", "left"), ("y", -below), ("yanchor", "top"), ("traceorder", "normal"),
        ("itemclick", false), ("itemdoubleclick", false));

    /// <summary>A legend above the plot, where the page's template puts it.</summary>
    public static DynamicObj.DynamicObj Above() => FigurePart.Of(("traceorder", "normal"), ("itemclick", false), ("itemdoubleclick", false));
}
