using TastingKit.Charts;

namespace TastingKit.Notebooks;

/// <summary>
/// The output of a notebook's first cell: the stylesheet and plotly.js, which every result and chart below it relies on.
/// It has to be shown; running the cell again is harmless.
/// </summary>
public sealed class NotebookSetUp
{
    internal NotebookSetUp()
    {
    }

    /// <summary>The sentence, the stylesheet and plotly.js.</summary>
    public string Html { get; } = PlotlyLoader.HtmlWithStylesheet;

    /// <summary>That the kit is ready, and which.</summary>
    public override string ToString() => PlotlyLoader.Ready + "\n";
}
