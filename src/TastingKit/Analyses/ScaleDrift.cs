namespace TastingKit;

/// <summary>
/// Whether the scale drifted, as far as the log can tell. Rest, calendar, roast date and days frozen run together, so that it tells sums of
/// their slopes; drift alone it never tells without an assumption, which every sentence names.
/// </summary>
public sealed class ScaleDrift : TastingResult
{
    internal ScaleDrift(
        TastingAttribute attribute, Scale scale, DriftCase found, IReadOnlyList<IdentifiedSum> sums, (int From, int To) restDays, bool restIsKnown,
        double freezerLossAYear, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Attribute = attribute;
        Scale = scale;
        Case = found;
        Sums = sums;
        (RestDaysFrom, RestDaysTo) = restDays;
        RestIsKnown = restIsKnown;
        FreezerLossAYear = freezerLossAYear;
    }

    /// <summary>What was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Its scale.</summary>
    public Scale Scale { get; }

    /// <summary>Whether anything was kept the same over the year, and what drift follows from it.</summary>
    public DriftCase Case { get; }

    /// <summary>The sums of slopes that the log tells, each once.</summary>
    public IReadOnlyList<IdentifiedSum> Sums { get; }

    /// <summary>The first of the days of rest over which the slope of rest is the mean one.</summary>
    public int RestDaysFrom { get; }

    /// <summary>The last of these days.</summary>
    public int RestDaysTo { get; }

    /// <summary>Whether the days are of effective rest; else the log has too few roast dates, and they are counted from each bag's first cup.</summary>
    public bool RestIsKnown { get; }

    /// <summary>Points a year that the user stated a frozen dose to lose; 0 where nothing was stated.</summary>
    public double FreezerLossAYear { get; }

    /// <inheritdoc/>
    public override string Question => $"Did the scale of {DriftWords.Named(Attribute)} drift?";

    /// <summary>The drift that follows if rest by itself does what the user states.</summary>
    /// <param name="pointsAMonth">What a month of rest does on average over the days tasted, in points of the scale; negative where coffee loses.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public DriftGivenRest GivenRestSlope(double pointsAMonth) => GivenRestSlope(pointsAMonth, pointsAMonth);

    /// <summary>The drifts that follow if what rest does by itself lies in a range that the user states.</summary>
    /// <param name="lowest">The least that a month of rest does, in points of the scale.</param>
    /// <param name="highest">The most that it does.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite numbers in order.</exception>
    public DriftGivenRest GivenRestSlope(double lowest, double highest)
    {
        if (!double.IsFinite(lowest))
            throw new ArgumentOutOfRangeException(nameof(lowest), lowest, "What a month of rest does is a finite number of points.");
        if (!double.IsFinite(highest) || highest < lowest)
            throw new ArgumentOutOfRangeException(nameof(highest), highest, $"A range of what a month of rest does runs from a lower to a higher finite number; it begins at {NumberText.Fixed(lowest)}.");
        return new DriftGivenRest(this, lowest, highest);
    }

    internal IdentifiedSum? SumOf(DriftSum sum) => Sums.FirstOrDefault(one => one.Sum == sum);

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() => DriftWords.Of(this);

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"What the log tells of drift in {DriftWords.Named(Attribute)}",
        [
            new TableColumn("what", "What", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("per", "Per", ColumnKind.Text),
            new TableColumn("degrees_of_freedom", "Degrees of freedom", ColumnKind.Number, "", 1),
            new TableColumn("assumption", "Holds", ColumnKind.Text),
            new TableColumn("rests_on", "Rests on", ColumnKind.Text),
        ],
        [
            .. Sums.Select(sum => Row(DriftWords.Name(sum.Sum), sum.Slope, DriftWords.Per(sum.Sum), "without an assumption", DriftWords.RestsOn(sum))),
            .. Case.Match(_ => [], anchored => anchored.Drifts.SelectMany(Rows)),
        ]);

    private static IEnumerable<IReadOnlyList<TableCell>> Rows(AnchoredDrift drift)
    {
        yield return Row("drift of the scale", drift.AYear, "year", drift.Anchor.Assumption, drift.Anchor.RestsOn);
        if (drift.RestAMonth is { } rest)
            yield return Row("rest by itself", rest, "month of rest", drift.Anchor.Assumption, drift.Anchor.RestsOn);
    }

    private static IReadOnlyList<TableCell> Row(string what, DriftSlope slope, string per, string assumption, string restsOn) =>
    [
        new TableCell.Text(what),
        new TableCell.Number(slope.Estimate),
        new TableCell.Interval(slope.Low, slope.High),
        new TableCell.Text(per),
        double.IsFinite(slope.DegreesOfFreedom) ? new TableCell.Number(slope.DegreesOfFreedom) : new TableCell.Missing("no limit"),
        new TableCell.Text(assumption),
        new TableCell.Text(restsOn),
    ];
}
