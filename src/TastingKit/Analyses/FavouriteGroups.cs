namespace TastingKit;

/// <summary>Kinds of coffee by what a coffee of each is expected to score: countries, processes, roasters.</summary>
public sealed class FavouriteGroups : TastingResult
{
    internal FavouriteGroups(
        Factor factor, IReadOnlyList<FavouriteGroup> groups, StandardBrew standardBrew, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Factor = factor;
        Groups = groups;
        StandardBrew = standardBrew;
        Scale = scale;
    }

    /// <summary>What sorts the coffees.</summary>
    public Factor Factor { get; }

    /// <summary>The levels by expected score, the highest first.</summary>
    public IReadOnlyList<FavouriteGroup> Groups { get; }

    /// <summary>The brew under which they are compared.</summary>
    public StandardBrew StandardBrew { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => $"Which {Factor.Name} was the favourite?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var first = Groups[0];
        var sure = first.BestProbability >= 0.9;
        var lead = sure
            ? $"By {Factor.Name}, {first.Level} is the favourite with {NumberText.Probability(first.BestProbability)} probability"
            : $"By {Factor.Name}, {first.Level} leads, but is the favourite with only {NumberText.Probability(first.BestProbability)} probability";
        return new[]
        {
            $"{lead} ({NumberText.Count(first.Cups, "cup")} of {NumberText.Count(first.Coffees, "coffee")}).",
            $"A coffee of this kind is expected to score {NumberText.Fixed(first.Estimate)} (95 % interval {NumberText.Interval(first.Low, first.High)}); its cups average {NumberText.Fixed(first.PlainMean)} as they are.",
        };
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Expected score by {Factor.Name}",
        [
            new TableColumn("what", Factor.Name, ColumnKind.Text),
            new TableColumn("estimate", "Expected score", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("rank", "Place", ColumnKind.Count),
            new TableColumn("best_probability", "The best", ColumnKind.Probability),
            new TableColumn("plain_mean", "Plain mean", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("coffees", "Coffees", ColumnKind.Count),
        ],
        [.. Groups.Select(g => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(g.Level),
                new TableCell.Number(g.Estimate),
                new TableCell.Interval(g.Low, g.High),
                new TableCell.Count(g.Rank),
                new TableCell.Share(g.BestProbability),
                new TableCell.Number(g.PlainMean),
                new TableCell.Count(g.Cups),
                new TableCell.Count(g.Coffees),
            ])]);
}
