namespace TastingKit;

/// <summary>One block of a laid-out result. Renderers only arrange and escape; numbers are formatted by <see cref="NumberText"/>.</summary>
public abstract record LayoutBlock
{
    private LayoutBlock()
    {
    }

    /// <summary>A sentence or two of plain text.</summary>
    public sealed record Paragraph(string Text) : LayoutBlock;

    /// <summary>The sentence that matters most: the finding.</summary>
    public sealed record Lead(string Text) : LayoutBlock;

    /// <summary>A table.</summary>
    public sealed record Table(ResultTable Contents) : LayoutBlock;

    /// <summary>Cautions, never folded away.</summary>
    public sealed record Cautions(IReadOnlyList<Caution> Items) : LayoutBlock;

    /// <summary>Detail that a reader may unfold.</summary>
    public sealed record Folded(string Title, IReadOnlyList<LayoutBlock> Blocks) : LayoutBlock;
}

/// <summary>A result laid out once, to be rendered many times.</summary>
/// <param name="Blocks">The blocks in reading order.</param>
public sealed record ResultLayout(IReadOnlyList<LayoutBlock> Blocks)
{
    /// <summary>Sentence first, then the table, the cautions, and how it was computed folded away.</summary>
    public static ResultLayout Of(TastingResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var blocks = new List<LayoutBlock> { new LayoutBlock.Lead(result.Finding) };
        blocks.AddRange(result.Summary.Skip(1).Select(sentence => new LayoutBlock.Paragraph(sentence)));
        if (result.Cautions.Count > 0)
            blocks.Add(new LayoutBlock.Cautions(result.Cautions));
        if (result.Table.Rows.Count > 0)
            blocks.Add(new LayoutBlock.Table(result.Table));
        blocks.Add(new LayoutBlock.Folded("How this was computed", Computed(result.Computation)));
        return new ResultLayout(blocks);
    }

    /// <summary>
    /// What stands below a result's chart, whose title is the finding: the further sentences, the cautions, and folded away the
    /// table and how it was computed.
    /// </summary>
    public static ResultLayout BelowChartOf(TastingResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var blocks = result.Summary.Skip(1).Select(sentence => (LayoutBlock)new LayoutBlock.Paragraph(sentence)).ToList();
        if (result.Cautions.Count > 0)
            blocks.Add(new LayoutBlock.Cautions(result.Cautions));
        if (result.Table.Rows.Count > 0)
            blocks.Add(new LayoutBlock.Folded($"The figures: {NumberText.Count(result.Table.Rows.Count, "row")}", [new LayoutBlock.Table(result.Table)]));
        blocks.Add(new LayoutBlock.Folded("How this was computed", Computed(result.Computation)));
        return new ResultLayout(blocks);
    }

    private static List<LayoutBlock> Computed(Computation computation)
    {
        var left = computation.LeftOut.Count == 0
            ? "none left out"
            : "left out: " + string.Join(", ", computation.LeftOut.Select(l => $"{l.Cups} {l.Reason}"));
        var blocks = new List<LayoutBlock>
        {
            new LayoutBlock.Paragraph($"Model: {computation.Model}"),
            new LayoutBlock.Paragraph($"Estimation: {computation.Estimator}"),
            new LayoutBlock.Paragraph($"Cups used: {computation.CupsUsed}; {left}."),
        };
        if (computation.Seed is { } seed)
            blocks.Add(new LayoutBlock.Paragraph($"Seed: {seed}."));
        return blocks;
    }
}
