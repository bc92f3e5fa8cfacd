namespace TastingKit;

/// <summary>One bag of roasted coffee, as bought, given or sampled.</summary>
public sealed record Bag
{
    /// <summary>The bag's identifier, unique within a log.</summary>
    public required string Id { get; init; }

    /// <summary>The green lot in the bag.</summary>
    public required Coffee Coffee { get; init; }

    /// <summary>Roast level as written (light, medium, dark or the roaster's own word).</summary>
    public string? RoastLevel { get; init; }

    /// <summary>What it was roasted for: filter or espresso.</summary>
    public string? RoastFor { get; init; }

    /// <summary>Day of roasting.</summary>
    public DateOnly? RoastDate { get; init; }

    /// <summary>Day the bag was opened.</summary>
    public DateOnly? OpenedOn { get; init; }

    /// <summary>Net weight in grams; positive.</summary>
    public double? NetWeightGrams { get; init; }

    /// <summary>Price of the bag in <see cref="Currency"/>; not negative.</summary>
    public decimal? Price { get; init; }

    /// <summary>Currency of <see cref="Price"/> as written.</summary>
    public string? Currency { get; init; }

    /// <summary>How the reviewer came by it: bought, gift, sample or sponsored.</summary>
    public string? Obtained { get; init; }

    /// <summary>
    /// Whether the row is a try-out of the form and no real bag (a coffee named <c>TEST</c>). It stays in the log;
    /// analyses of scores leave its cups out and say how many.
    /// </summary>
    public bool IsTestEntry { get; init; }

    /// <summary>Columns the kit has no name for, by header, non-empty cells only.</summary>
    public IReadOnlyDictionary<string, string> OtherColumns { get; init; } = EmptyColumns.Instance;

    /// <summary>
    /// What the log has in the columns (by their canonical name) whose quantity, price or date was converted from another writing, such as
    /// <c>8.8 oz</c> or <c>3 March 2025</c>; empty where all is written as the kit itself writes it. Words of the coffee stand in <see cref="Coffee.AsWritten"/>.
    /// </summary>
    public IReadOnlyDictionary<string, string> AsWritten { get; init; } = EmptyColumns.Instance;
}
