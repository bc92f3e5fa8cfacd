namespace TastingKit;

/// <summary>What a year of frozen doses would tell of drift.</summary>
/// <param name="What">What is done, in a few words.</param>
/// <param name="Doses">Doses frozen and tasted.</param>
/// <param name="DaysApart">Days from one dose to the next; <see langword="null"/> where all are tasted at one sitting.</param>
/// <param name="HalfWidth">Half of the width that the 95 % interval of the drift is expected to have, in points a year.</param>
/// <param name="Power">Probability that the drift asked about is told from none.</param>
public sealed record DriftPlanOption(string What, int Doses, double? DaysApart, double HalfWidth, double Power);

/// <summary>How many frozen doses it takes to tell a drift, from the scatter of the log's own cups.</summary>
public sealed class DriftPlan : TastingResult
{
    internal const double WantedPower = 0.8;

    internal DriftPlan(
        double driftAYear, Scale scale, DriftPlanOption? doses, DriftPlanOption? flight, IReadOnlyList<DriftPlanOption> options, double doseDeviation, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (DriftAYear, Scale, Doses, Flight, Options, DoseStandardDeviation) = (driftAYear, scale, doses, flight, options, doseDeviation);
    }

    /// <summary>The drift to be told, in points a year; positive.</summary>
    public double DriftAYear { get; }

    /// <summary>The scale.</summary>
    public Scale Scale { get; }

    /// <summary>The fewest doses of one coffee, spread evenly over a year, that tell it in 80 of 100 such years; <see langword="null"/> if a dose a day would not.</summary>
    public DriftPlanOption? Doses { get; }

    /// <summary>
    /// The fewest bags of which a dose is frozen as they come and all are tasted blind at one sitting at the year's end, held against their own fresh cups;
    /// <see langword="null"/> if a hundred would not tell it.
    /// </summary>
    public DriftPlanOption? Flight { get; }

    /// <summary>Six, twelve, twenty-four and fifty-two doses, and the fewest that tell it, in order.</summary>
    public IReadOnlyList<DriftPlanOption> Options { get; }

    /// <summary>Standard deviation of one dose on a day of its own, in points, as the log's cups scatter.</summary>
    public double DoseStandardDeviation { get; }

    /// <inheritdoc/>
    public override string Question => $"How many frozen doses would tell a drift of {NumberText.Fixed(DriftAYear)} points a year?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() =>
    [
        Doses is { } doses
            ? $"{doses.Doses} doses of one coffee, frozen on one day and thawed and tasted blind one every {NumberText.Fixed(doses.DaysApart!.Value, 0)} days, would tell a drift of {NumberText.Fixed(DriftAYear)} points a year in {NumberText.Probability(doses.Power)} of such years, if coffee does not change in the freezer ({NumberText.Count(Computation.CupsUsed, "cup")})."
            : $"Not even a dose a day would tell a drift of {NumberText.Fixed(DriftAYear)} points a year in 80 of 100 such years ({NumberText.Count(Computation.CupsUsed, "cup")}).",
        $"A dose on a day of its own scatters by {NumberText.Fixed(DoseStandardDeviation)} points (standard deviation), as this taster's cups of one bag do from day to day.",
        .. Options.Where(option => option.DaysApart is not null).Select(option => $"{option.Doses} doses: drift to within {NumberText.Fixed(option.HalfWidth)} points a year either way, and this drift told in {NumberText.Probability(option.Power)} of years."),
        Flight is { } flight
            ? $"Instead, a dose of each of {NumberText.Count(flight.Doses, "bag")} frozen as it comes, all tasted blind at one sitting at the year's end and held against their fresh cups, would tell it in {NumberText.Probability(flight.Power)} of years, under the same assumption."
            : "No sitting of up to a hundred frozen doses at the year's end would tell it.",
    ];

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"What frozen doses would tell of a drift of {NumberText.Fixed(DriftAYear)} points a year",
        [
            new TableColumn("what", "What is done", ColumnKind.Text),
            new TableColumn("doses", "Doses", ColumnKind.Count),
            new TableColumn("days_apart", "Days apart", ColumnKind.Number, "days", 0),
            new TableColumn("half_width", "Half width of the 95 % interval, a year", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("power", "Told in", ColumnKind.Probability),
        ],
        [.. Options.Select(option => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(option.What),
                new TableCell.Count(option.Doses),
                option.DaysApart is { } days ? new TableCell.Number(days) : new TableCell.Missing("one sitting"),
                new TableCell.Number(option.HalfWidth),
                new TableCell.Share(option.Power),
            ])]);
}
