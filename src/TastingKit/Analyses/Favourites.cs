namespace TastingKit;

/// <summary>
/// The year's favourites: each coffee's predicted score under one stated standard brew, how sure its place is, and the same for
/// kinds of coffee.
/// </summary>
public sealed class Favourites : TastingResult
{
    private readonly Func<Factor, FavouriteGroups> _by;

    internal Favourites(
        IReadOnlyList<Favourite> coffees, int topCount, StandardBrew standardBrew, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support, Func<Factor, FavouriteGroups> by)
        : base(cautions, computation, support)
    {
        Coffees = coffees;
        TopCount = topCount;
        StandardBrew = standardBrew;
        Scale = scale;
        _by = by;
    }

    /// <summary>The coffees by predicted score, the highest first. Empty where the log can't tell coffees apart.</summary>
    public IReadOnlyList<Favourite> Coffees { get; }

    /// <summary>How many make the top: ten, or a third of the coffees where the log has fewer than thirty.</summary>
    public int TopCount { get; }

    /// <summary>The brew under which the coffees are compared.</summary>
    public StandardBrew StandardBrew { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "Which coffees were the favourites?";

    /// <summary>The same question asked of kinds of coffee, from the same model: each level's expected score, shrunk by what its cups support.</summary>
    /// <param name="factor">A factor of the coffee, such as <see cref="Factor.Country"/>, <see cref="Factor.Process"/> or <see cref="Factor.Roaster"/>.</param>
    /// <exception cref="ArgumentException">The factor belongs to the brew and not to the coffee.</exception>
    public FavouriteGroups By(Factor factor)
    {
        ArgumentNullException.ThrowIfNull(factor);
        if (!factor.IsOfCoffee)
            throw new ArgumentException($"Favourites can be grouped by what belongs to a coffee (country, process, roaster, ...), not by {factor.Name}: for that, ask for the method effects.", nameof(factor));
        return _by(factor);
    }

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var first = Coffees[0];
        var sure = Coffees.Count(c => c.TopProbability >= 0.9);
        var chance = Coffees.Count(c => c.TopProbability is >= 0.1 and < 0.9);
        var lead = first.BestProbability >= 0.9
            ? $"{first.Coffee.Label} is the favourite: the best of {Coffees.Count} coffees with {NumberText.Probability(first.BestProbability)} probability"
            : $"{first.Coffee.Label} leads {Coffees.Count} coffees, but is the best with only {NumberText.Probability(first.BestProbability)} probability";
        return new[]
        {
            $"{lead} ({NumberText.Count(first.Cups, "cup")}).",
            $"Its predicted score is {NumberText.Fixed(first.Estimate)} (95 % interval {NumberText.Interval(first.Low, first.High)}) of {NumberText.Fixed(Scale.Min, 0)} to {NumberText.Fixed(Scale.Max, 0)}, under the standard brew: {StandardBrew}.",
            TopCount == 1 ? "" : $"Of the best {TopCount}, the log is sure of {sure} (probability of 90 % or more); {NumberText.Count(chance, "more coffee has", "more coffees have")} a chance between 10 % and 90 %.",
        }.Where(sentence => sentence.Length > 0).ToArray();
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "Coffees by predicted score under the standard brew",
        [
            new TableColumn("what", "Coffee", ColumnKind.Text),
            new TableColumn("estimate", "Predicted score", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("rank", "Place", ColumnKind.Count),
            new TableColumn("rank_interval", "95 % of places", ColumnKind.Interval, Decimals: 0),
            new TableColumn("top_probability", $"Among the best {TopCount}", ColumnKind.Probability),
            new TableColumn("best_probability", "The best", ColumnKind.Probability),
            new TableColumn("plain_mean", "Plain mean", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("bags", "Bags", ColumnKind.Count),
        ],
        [.. Coffees.Select(c => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(c.Coffee.Label),
                new TableCell.Number(c.Estimate),
                new TableCell.Interval(c.Low, c.High),
                new TableCell.Count(c.Rank),
                new TableCell.Interval(c.RankLow, c.RankHigh),
                new TableCell.Share(c.TopProbability),
                new TableCell.Share(c.BestProbability),
                new TableCell.Number(c.PlainMean),
                new TableCell.Count(c.Cups),
                new TableCell.Count(c.Bags),
            ])]);
}
