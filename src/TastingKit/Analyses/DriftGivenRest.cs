namespace TastingKit;

/// <summary>The drift of the scale that follows from what the user states of rest. It is the user's assumption, not the log's answer.</summary>
public sealed class DriftGivenRest : TastingResult
{
    private const double MonthsAYear = 12;

    internal DriftGivenRest(ScaleDrift drift, double lowest, double highest)
        : base(
            [.. drift.Cautions, new Caution("stated-by-user", $"What rest does ({Stated(lowest, highest)}) was stated by the user and not told by the log: the drift is as good as that statement.")],
            drift.Computation,
            !drift.Support.IsSupported ? drift.Support : drift.SumOf(DriftSum.RestAndDrift) is null
                ? Support.Missing("No bag was tasted on several days, so that nothing in this log tells rest and drift together.", "Taste each bag on several days.")
                : Support.Given)
    {
        (Attribute, Scale, RestLowest, RestHighest) = (drift.Attribute, drift.Scale, lowest, highest);
        (RestDaysFrom, RestDaysTo) = (drift.RestDaysFrom, drift.RestDaysTo);
        Together = drift.SumOf(DriftSum.RestAndDrift)?.Slope ?? new DriftSlope(0, 0, 0, 0, 0);
        if (!Support.IsSupported)
            return;
        var together = Together;
        (Lowest, Highest) = (MonthsAYear * (together.Estimate - highest), MonthsAYear * (together.Estimate - lowest));
        (Low, High) = (MonthsAYear * (together.Low - highest), MonthsAYear * (together.High - lowest));
    }

    /// <summary>What was asked about.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Its scale.</summary>
    public Scale Scale { get; }

    /// <summary>The least that a month of rest does by itself, as stated, in points.</summary>
    public double RestLowest { get; }

    /// <summary>The most that it does, as stated; the same where one number was stated.</summary>
    public double RestHighest { get; }

    /// <summary>The first of the days of rest that the statement is about.</summary>
    public int RestDaysFrom { get; }

    /// <summary>The last of them.</summary>
    public int RestDaysTo { get; }

    /// <summary>What the log tells, in points a month: rest and drift together.</summary>
    public DriftSlope Together { get; }

    /// <summary>The least drift estimated under the statement, in points a year.</summary>
    public double Lowest { get; }

    /// <summary>The highest drift estimated under it; the same where one number was stated.</summary>
    public double Highest { get; }

    /// <summary>Lower end of the 95 % interval: holds the drift in 95 of 100 such logs, whichever value of the stated range is true.</summary>
    public double Low { get; }

    /// <summary>Upper end of it.</summary>
    public double High { get; }

    /// <summary>The drift a year that follows from one stated slope of rest.</summary>
    internal DriftSlope AYear => Together.Times(MonthsAYear).Plus(-MonthsAYear * RestLowest);

    /// <summary>The same with what it rests on.</summary>
    internal AnchoredDrift AsAnchored(IdentifiedSum together) => new(
        new DriftAnchor.StatedRest(RestLowest, together.Cups, together.Bags),
        AYear,
        new DriftSlope(RestLowest, RestLowest, RestLowest, 0, together.Slope.DegreesOfFreedom));

    /// <inheritdoc/>
    public override string Question => $"What drift of {DriftWords.Named(Attribute)} follows if rest does what you state?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() =>
    [
        $"If rest by itself does {Stated(RestLowest, RestHighest)} from day {RestDaysFrom} to day {RestDaysTo}, as you state, the scale drifted by {(Lowest == Highest ? NumberText.Difference(Lowest) : NumberText.DifferenceInterval(Lowest, Highest))} points a year (95 % interval {NumberText.DifferenceInterval(Low, High)}; {NumberText.Count(Computation.CupsUsed, "cup")}).",
        "That is your statement carried through, and not something this log found: another statement gives another drift, and the log fits both alike.",
    ];

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "Drift that follows from what the user states of rest",
        [
            new TableColumn("what", "If rest by itself does", ColumnKind.Text),
            new TableColumn("estimate", "Drift a year", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("cups", "Cups", ColumnKind.Count),
        ],
        Support.IsSupported
            ? [[new TableCell.Text($"{Stated(RestLowest, RestHighest)} (stated)"), new TableCell.Interval(Lowest, Highest), new TableCell.Interval(Low, High), new TableCell.Count(Computation.CupsUsed)]]
            : []);

    private static string Stated(double lowest, double highest) =>
        lowest == highest ? $"{NumberText.Difference(lowest)} points a month" : $"{NumberText.DifferenceInterval(lowest, highest)} points a month";
}
