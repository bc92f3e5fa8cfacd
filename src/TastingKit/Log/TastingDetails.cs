namespace TastingKit;

/// <summary>What of a cup is seldom filled in, or seldom changes from cup to cup. Cups that have it in common share one.</summary>
internal sealed record TastingDetails
{
    /// <summary>Nothing is filled in.</summary>
    public static TastingDetails None { get; } = new();

    /// <inheritdoc cref="Tasting.Taster"/>
    public string? Taster { get; init; }

    /// <inheritdoc cref="Tasting.Filter"/>
    public string? Filter { get; init; }

    /// <inheritdoc cref="Tasting.Grinder"/>
    public string? Grinder { get; init; }

    /// <inheritdoc cref="Tasting.RecipeFrom"/>
    public string? RecipeFrom { get; init; }

    /// <inheritdoc cref="Tasting.YieldGrams"/>
    public double? YieldGrams { get; init; }

    /// <inheritdoc cref="Tasting.TdsPercent"/>
    public double? TdsPercent { get; init; }

    /// <inheritdoc cref="Tasting.StatedRatio"/>
    public double? StatedRatio { get; init; }

    /// <inheritdoc cref="Tasting.FrozenOn"/>
    public DateOnly? FrozenOn { get; init; }

    /// <inheritdoc cref="Tasting.ThawedOn"/>
    public DateOnly? ThawedOn { get; init; }

    /// <inheritdoc cref="Tasting.CupTemperature"/>
    public string? CupTemperature { get; init; }

    /// <inheritdoc cref="Tasting.GuessedProcess"/>
    public string? GuessedProcess { get; init; }

    /// <inheritdoc cref="Tasting.OtherColumns"/>
    public IReadOnlyDictionary<string, string> OtherColumns { get; init; } = EmptyColumns.Instance;
}
