namespace TastingKit;

/// <summary>One coffee's place by the scores as written and by the adjusted ones.</summary>
/// <param name="Coffee">The coffee.</param>
/// <param name="Rank">Its place by the adjusted scores, from 1.</param>
/// <param name="Estimate">Predicted score by the adjusted scores, under the standard brew.</param>
/// <param name="Low">Lower end of its 95 % interval, the drift's uncertainty included.</param>
/// <param name="High">Upper end of it.</param>
/// <param name="RankAsWritten">Its place by the scores as written.</param>
/// <param name="EstimateAsWritten">Predicted score by the scores as written.</param>
/// <param name="Years">By how much its predicted score falls for each point a year of drift that is taken out: how long after the common day it was tasted, as the model weighs its cups.</param>
public sealed record AdjustedFavourite(Coffee Coffee, int Rank, double Estimate, double Low, double High, int RankAsWritten, double EstimateAsWritten, double Years);

/// <summary>The favourites by the scores as written and by scores brought to one scale, so that both orders can be seen.</summary>
public sealed class AdjustedFavourites : TastingResult
{
    private const int Named = 3;

    internal AdjustedFavourites(
        IReadOnlyList<AdjustedFavourite> coffees, AnchoredDrift? drift, StandardBrew brew, Scale scale, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (Coffees, Drift, StandardBrew, Scale) = (coffees, drift, brew, scale);
    }

    /// <summary>The coffees by their adjusted place.</summary>
    public IReadOnlyList<AdjustedFavourite> Coffees { get; }

    /// <summary>The drift taken out, with its assumption; <see langword="null"/> where the log identifies none.</summary>
    public AnchoredDrift? Drift { get; }

    /// <summary>The brew under which coffees are compared.</summary>
    public StandardBrew StandardBrew { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "Which coffees were the favourites, as written and on one scale?";

    /// <summary>Covariance of two coffees' estimates by the drift that they share, in squared points.</summary>
    /// <param name="first">One of <see cref="Coffees"/>.</param>
    /// <param name="second">The other, or the same.</param>
    public double SharedCovariance(AdjustedFavourite first, AdjustedFavourite second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var error = Drift?.AYear.StandardError ?? 0;
        return first.Years * second.Years * error * error;
    }

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var drift = Drift!;
        var first = Coffees[0];
        var moved = Coffees.OrderByDescending(coffee => Math.Abs(coffee.Rank - coffee.RankAsWritten)).ThenBy(coffee => coffee.Rank).Take(Named).Where(coffee => coffee.Rank != coffee.RankAsWritten).ToArray();
        return
        [
            $"{drift.Anchor.Assumption}, and the drift of {NumberText.Difference(drift.AYear.Estimate)} points a year is taken out, {first.Coffee.Label} stands first at {NumberText.Fixed(first.Estimate)} (95 % interval {NumberText.Interval(first.Low, first.High)}; place {first.RankAsWritten} as written; {NumberText.Count(Computation.CupsUsed, "cup")}).",
            moved.Length == 0
                ? "No coffee changes its place."
                : $"Furthest moved: {string.Join("; ", moved.Select(coffee => $"{coffee.Coffee.Label} from place {coffee.RankAsWritten} to {coffee.Rank}"))}.",
            drift.AYear.IsToldFromNone
                ? "Both orders are shown: the adjusted one is as good as its assumption."
                : "Both orders are shown, and the log can\u2019t tell this drift from none: the order as written fits it as well.",
        ];
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "Favourites on one scale, and as written",
        [
            new TableColumn("what", "Coffee", ColumnKind.Text),
            new TableColumn("rank", "Place", ColumnKind.Count),
            new TableColumn("estimate", "Predicted score, adjusted", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("rank_as_written", "Place as written", ColumnKind.Count),
            new TableColumn("estimate_as_written", "Predicted score as written", ColumnKind.Number, ScaleText.Unit(Scale)),
        ],
        [.. Coffees.Select(coffee => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(coffee.Coffee.Label),
                new TableCell.Count(coffee.Rank),
                new TableCell.Number(coffee.Estimate),
                new TableCell.Interval(coffee.Low, coffee.High),
                new TableCell.Count(coffee.RankAsWritten),
                new TableCell.Number(coffee.EstimateAsWritten),
            ])]);
}
