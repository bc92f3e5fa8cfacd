using System.Globalization;

namespace TastingKit;

/// <summary>
/// How precisely one taster scores, in the terms of ISO 5725: repeatability from blind repeats of one brew on one day, and apart from it the
/// scatter from day to day; what sitting and order do; and what that makes of a first cup and of a verdict.
/// </summary>
public sealed class TastingPrecision : TastingResult
{
    /// <summary>Two single values differ by less than this many of their standard deviations in 95 cases of 100: 1.96·√2.</summary>
    public const double LimitPerDeviation = 2.771807648699614;

    internal TastingPrecision(
        PrecisionParts parts, IReadOnlyList<RepeatSet> sets, double halfWidth, Scale scale, double step,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Parts = parts;
        Sets = sets;
        HalfWidth = halfWidth;
        Scale = scale;
        Step = step;
    }

    /// <summary>Repeatability: the standard deviation of one cup over blind repeats of one brew on one day, before rounding to the scale's steps, in points.</summary>
    public PartAnswer Repeatability => Parts.Repeatability;

    /// <summary>The repeatability limit of ISO 5725: two blind cups of one brew on one day differ by less in 95 cases of 100; 1.96·√2 times <see cref="Repeatability"/>, in points.</summary>
    public PartAnswer RepeatabilityLimit => LimitOf(Parts.Repeatability);

    /// <summary>The standard deviation of one cup over repeats whose taster knew what they were, in points. It is no repeatability.</summary>
    public PartAnswer SightedRepeats => Parts.SightedRepeats;

    /// <summary>The standard deviation of sighted repeats as a multiple of that of blind ones: below 1, knowing the coffee makes scores agree.</summary>
    public PartAnswer SightedAgainstBlind => Parts.SightedAgainstBlind;

    /// <summary>Precision from day to day: the standard deviation of one cup of one bag and brew over days, net of rest, in points.</summary>
    public PartAnswer DayToDay => Parts.DayToDay;

    /// <summary>The same without the cups that <see cref="TastingLog.OneOffs"/> would flag among these, its interval as high as that of all; refused where there is none.</summary>
    public PartAnswer DayToDayWithoutOneOffs => Parts.DayToDayWithoutOneOffs;

    /// <summary>The part of it that all cups of a sitting share: the standard deviation between sittings, in points.</summary>
    public PartAnswer BetweenSittings => Parts.BetweenSittings;

    /// <summary>Intraclass correlation: the share, from 0 to 1, that the log's coffees have in the variance of single cups from day to day.</summary>
    public PartAnswer IntraclassCorrelation => Parts.IntraclassCorrelation;

    /// <summary>Points by which each further place in a sitting changes the score.</summary>
    public PartAnswer PositionEffect => Parts.PositionEffect;

    /// <summary>Points by which each further cup that day changes the day's scores.</summary>
    public PartAnswer CupsThatDayEffect => Parts.CupsThatDayEffect;

    /// <summary>The correlation, from −1 to 1, of a coffee's first cup with the mean of its later ones, both net of brew and rest.</summary>
    public PartAnswer FirstCup => Parts.FirstCup;

    /// <summary>Cups on as many days after which a coffee's mean lies within <see cref="HalfWidth"/> of where many more would take it, in 95 cases of 100.</summary>
    public PartAnswer CupsForAVerdict => Parts.CupsForAVerdict;

    /// <summary>The half-width of a verdict that moves no more, in points, fixed before looking.</summary>
    public double HalfWidth { get; }

    /// <summary>The repeats, in the order tasted.</summary>
    public IReadOnlyList<RepeatSet> Sets { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <summary>The unit of the standard deviations in words.</summary>
    public string Unit => ScaleText.Unit(Scale);

    /// <summary>The step that the scores stand on, in points; 0 where they stand on none.</summary>
    public double Step { get; }

    /// <summary>The repeats as a table, in the order tasted: no rows where there are none.</summary>
    public ResultTable RepeatsTable() => new(
        "Repeats of one brew on one day",
        [
            new TableColumn("what", "Coffee", ColumnKind.Text),
            new TableColumn("tasted_on", "Day", ColumnKind.Text),
            new TableColumn("known", "Tasted", ColumnKind.Text),
            new TableColumn("scores", "Scores", ColumnKind.Text),
            new TableColumn("range", "Range", ColumnKind.Number, Unit),
            new TableColumn("cups", "Cups", ColumnKind.Count),
        ],
        [.. Sets.Select(set => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(set.Bag.Coffee.Label),
                new TableCell.Text(set.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
                new TableCell.Text(set.IsBlind ? "blind" : "sighted"),
                new TableCell.Text(string.Join("; ", set.Scores.Select(score => NumberText.Fixed(score)))),
                new TableCell.Number(set.Scores.Max() - set.Scores.Min()),
                new TableCell.Count(set.Scores.Count),
            ])]);

    private PrecisionParts Parts { get; }

    internal static PartAnswer LimitOf(PartAnswer repeatability) => repeatability.Match<PartAnswer>(
        one => one with { Estimate = LimitPerDeviation * one.Estimate, Low = LimitPerDeviation * one.Low, High = LimitPerDeviation * one.High }, no => no);

    /// <inheritdoc/>
    public override string Question => "How repeatable are the scores?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() => PrecisionWords.Of(this);

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "Precision of the scores",
        [
            new TableColumn("what", "What", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, "as the unit says"),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, "as the unit says"),
            new TableColumn("unit", "Unit", ColumnKind.Text),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("from", "From", ColumnKind.Text),
        ],
        Support.IsSupported ? [.. Rows().Select(row => PartAnswerRow.Of(row.What, row.Unit, row.Answer))] : []);

    private IEnumerable<(string What, string Unit, PartAnswer Answer)> Rows()
    {
        var points = Unit;
        yield return ("repeatability (standard deviation of one cup)", points, Repeatability);
        yield return ("repeatability limit (two cups, 95 %)", points, RepeatabilityLimit);
        yield return ("sighted repeats (standard deviation of one cup)", points, SightedRepeats);
        yield return ("sighted against blind repeats", "ratio", SightedAgainstBlind);
        yield return ("from day to day (standard deviation of one cup)", points, DayToDay);
        if (DayToDayWithoutOneOffs is PartAnswer.Estimated)
            yield return ("from day to day, without one-offs", points, DayToDayWithoutOneOffs);
        yield return ("between sittings (standard deviation)", points, BetweenSittings);
        yield return ("intraclass correlation", "share of variance", IntraclassCorrelation);
        yield return ("each further place in a sitting", points, PositionEffect);
        yield return ("each further cup that day", points, CupsThatDayEffect);
        yield return ("first cup with the later ones", "correlation", FirstCup);
        yield return ("cups for a verdict", "cups", CupsForAVerdict);
    }
}

/// <summary>The answers that make up <see cref="TastingPrecision"/>, each of which a log may give or not.</summary>
internal sealed record PrecisionParts(
    PartAnswer Repeatability, PartAnswer SightedRepeats, PartAnswer SightedAgainstBlind, PartAnswer DayToDay, PartAnswer BetweenSittings,
    PartAnswer IntraclassCorrelation, PartAnswer PositionEffect, PartAnswer CupsThatDayEffect, PartAnswer FirstCup, PartAnswer CupsForAVerdict,
    PartAnswer DayToDayWithoutOneOffs)
{
    /// <summary>No answer at all, for one reason.</summary>
    public static PrecisionParts None(string reason, string whatToLog)
    {
        var no = new PartAnswer.Refused(reason, whatToLog);
        return new PrecisionParts(no, no, no, no, no, no, no, no, no, no, no);
    }
}
