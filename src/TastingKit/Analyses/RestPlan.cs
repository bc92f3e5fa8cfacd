namespace TastingKit;

/// <summary>A day on which a bag can be opened, and what is expected of it.</summary>
/// <param name="Age">The bag's age in days when it is opened.</param>
/// <param name="Estimate">Expected score under the standard brew, averaged over the days that the bag is open.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end of its 95 % interval.</param>
/// <param name="NearBest">Probability that opening it then lies within the stated distance of the best day, from 0 to 1.</param>
public sealed record OpeningDay(int Age, double Estimate, double Low, double High, double NearBest);

/// <summary>When to open a bag, told from bags of its kind that were opened at different ages.</summary>
public sealed class RestPlan : TastingResult
{
    private const double SureOfAnother = 0.05;

    internal RestPlan(
        Bag bag, string kind, IReadOnlyList<OpeningDay> days, (int Low, int High) best, int daysOpen, double near, int bags, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (Bag, Kind, Days, BestLow, BestHigh, DaysOpen, Near, Bags, Scale) = (bag, kind, days, best.Low, best.High, daysOpen, near, bags, scale);
    }

    /// <summary>The bag.</summary>
    public Bag Bag { get; }

    /// <summary>Its kind: its process, or all coffees where the log does not state one.</summary>
    public string Kind { get; }

    /// <summary>The ages at which it can be opened, as far as bags of its kind were; empty where the log does not support an answer.</summary>
    public IReadOnlyList<OpeningDay> Days { get; }

    /// <summary>Lower end of the 95 % interval of the best age to open it, in days.</summary>
    public int BestLow { get; }

    /// <summary>Upper end of the 95 % interval of the best age to open it, in days.</summary>
    public int BestHigh { get; }

    /// <summary>Days from opening to the last cup, as is usual for its kind in this log.</summary>
    public int DaysOpen { get; }

    /// <summary>Points within which a day counts as among the best.</summary>
    public double Near { get; }

    /// <summary>Bags of its kind that the answer rests on.</summary>
    public int Bags { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <summary>The best age to open it; asked for only where the log supports an answer.</summary>
    public OpeningDay Best => Days.MaxBy(day => day.Estimate)!;

    /// <summary>
    /// Whether a best age is told: where some age tried is, with a probability of 95 %, further below the best than the stated distance. Where all are
    /// alike the highest estimate would be drawn by lot.
    /// </summary>
    public bool NamesBest => Days.Any(day => day.NearBest <= SureOfAnother);

    /// <inheritdoc/>
    public override string Question => $"When should bag {Bag.Id} be opened?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var near = Days.Where(day => day.Estimate >= Best.Estimate - Near).ToArray();
        var counts = $"{NumberText.Count(Bags, "bag")} of {Kind}, opened from day {Days[0].Age} to day {Days[^1].Age}; {NumberText.Count(Computation.CupsUsed, "cup")}";
        var calendar = Bag.RoastDate is { } roasted
            ? $" Of this bag, day {Best.Age} is {roasted.AddDays(Best.Age).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}."
            : " This bag has no roast date.";
        return
        [
            !NamesBest
                ? $"It makes no difference that is shown when bag {Bag.Id} is opened: no age tried is sure to be more than {NumberText.Fixed(Near)} points below the best ({counts})."
                : $"Bag {Bag.Id} is best opened around day {Best.Age} (95 % interval day {BestLow} to {BestHigh}; {counts}).",
            !NamesBest
                ? "To tell more, open further bags of its kind early and late, and brew each on several days."
                : $"Opened from day {near[0].Age} to day {near[^1].Age} and drunk over {NumberText.Count(DaysOpen, "day")}, its expected scores lie within {NumberText.Fixed(Near)} points of the best.{calendar}",
        ];
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "Expected score by the age at which the bag is opened",
        [
            new TableColumn("age", "Opened at", ColumnKind.Count, "days"),
            new TableColumn("estimate", "Expected score", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("near_best", $"Within {NumberText.Fixed(Near)} points of the best", ColumnKind.Probability),
        ],
        [.. Days.Select(d => (IReadOnlyList<TableCell>)[new TableCell.Count(d.Age), new TableCell.Number(d.Estimate), new TableCell.Interval(d.Low, d.High), new TableCell.Share(d.NearBest)])]);
}
