namespace TastingKit;

/// <summary>How a planned cup is made and drunk.</summary>
public enum Serving
{
    /// <summary>A whole dose, drunk by the taster.</summary>
    Whole,

    /// <summary>Half a dose: half the grams, and half a cup of the day's allowance.</summary>
    HalfDose,

    /// <summary>A whole dose shared with another: all of its grams, and half a cup of the day's allowance.</summary>
    Shared,
}

/// <summary>
/// What may be brewed next, and within what limits. All of it may be left as it is: then any bag with coffee left, on any brewer and recipe of the
/// log, from the day after the last cup.
/// </summary>
public sealed record BrewCandidates
{
    /// <summary>When planning begins; <see langword="null"/> for the day after the log's last cup.</summary>
    public DateTime? From { get; init; }

    /// <summary>The bags to choose from, by <c>bag_id</c>; empty for all that have a dose left.</summary>
    public IReadOnlyList<string> Bags { get; init; } = [];

    /// <summary>The brewers to choose from; empty for all with a scored cup.</summary>
    public IReadOnlyList<string> Brewers { get; init; } = [];

    /// <summary>Whose recipes to choose from, as <c>recipe_from</c> has them; empty for all with a scored cup.</summary>
    public IReadOnlyList<string> RecipesFrom { get; init; } = [];

    /// <summary>Grams left by <c>bag_id</c>, as weighed; other bags have their net weight less the doses logged.</summary>
    public IReadOnlyDictionary<string, double> GramsLeft { get; init; } = new Dictionary<string, double>().AsReadOnly();

    /// <summary>Grams of a whole dose; positive. <see langword="null"/> for the middle one of the log's doses.</summary>
    public double? DoseGrams { get; init; }

    /// <summary>How the cups are made and drunk.</summary>
    public Serving Serving { get; init; }

    /// <summary>Cups a day, those already logged on that day among them; positive. Half and shared doses count half.</summary>
    public double CupsADay { get; init; } = 3;

    /// <summary>The hour from which no cup is planned any more; <see langword="null"/> for none.</summary>
    public TimeOnly? LatestHour { get; init; }

    /// <summary>Cups to plan ahead, from 1 to 24.</summary>
    public int Cups { get; init; } = 5;

    /// <summary>Whether bags are let in that have rested over a week longer than any cup of the log, where what rest does can only be carried on.</summary>
    public bool RestBeyondTasted { get; init; }

    internal double GramsOf(double dose) => Serving == Serving.HalfDose ? dose / 2 : dose;

    internal double CupsOfAllowance => Serving == Serving.Whole ? 1 : 0.5;

    internal void Validate()
    {
        Positive(CupsADay, nameof(CupsADay));
        if (DoseGrams is { } dose)
            Positive(dose, nameof(DoseGrams));
        if (Cups is < 1 or > 24)
            throw new ArgumentOutOfRangeException(nameof(Cups), Cups, "From 1 to 24 cups can be planned ahead.");
        if (GramsLeft.FirstOrDefault(bag => !(bag.Value >= 0) || !double.IsFinite(bag.Value)) is { Key: not null } wrong)
            throw new ArgumentOutOfRangeException(nameof(GramsLeft), wrong.Value, $"The grams left of bag {wrong.Key} must be a number of at least 0.");
    }

    private static void Positive(double value, string name)
    {
        if (!(value > 0) || !double.IsFinite(value))
            throw new ArgumentOutOfRangeException(name, value, $"{name} must be a positive number.");
    }
}
