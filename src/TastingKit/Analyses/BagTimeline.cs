using System.Globalization;

namespace TastingKit;

/// <summary>One cup of a bag on its timeline.</summary>
/// <param name="Cup">The cup.</param>
/// <param name="Day">Days from the bag's roast date to the cup, in a freezer or not; from its first cup where no roast date is known.</param>
/// <param name="Counts">Whether models of the score use it: it has a score, and was neither failed nor brewed for dialling in.</param>
public sealed record TimelineCup(Tasting Cup, int Day, bool Counts)
{
    /// <summary>Why it does not count, in a few words; that it does, where it does.</summary>
    public string Standing => this switch
    {
        { Counts: true } => "counts",
        { Cup.Failed: true } => "failed",
        { Cup.Purpose: Purpose.DialIn } => "for dialling in",
        { Cup.Purpose: Purpose.Cupping } => "cupping bowl",
        { Cup.Purpose: Purpose.Control } => "control dose",
        { Cup.Score: null } => "without a score",
        _ => "does not count",
    };

    /// <summary>The brewer's name; that it is not stated, where it is not.</summary>
    public string Brewer => Cup.Brewer ?? "brewer not stated";

    /// <summary>The recipe by its name and its parts, as far as they are stated: dose, ratio, temperature, grind, time.</summary>
    public string Recipe
    {
        get
        {
            string?[] parts =
            [
                Cup.Recipe ?? Cup.RecipeFrom, Cup.DoseGrams is { } dose ? $"{NumberText.Fixed(dose, 1)} g" : null, Cup.Ratio is { } ratio ? $"1:{NumberText.Fixed(ratio, 1)}" : null,
                Cup.WaterCelsius is { } celsius ? $"{NumberText.Fixed(celsius, 0)} °C" : null, Cup.Grind is { } grind ? $"grind {grind}" : null,
                Cup.BrewTime is { } time ? time.ToString(@"m\:ss", CultureInfo.InvariantCulture) : null,
            ];
            return parts.All(part => part is null) ? "recipe not stated" : string.Join(", ", parts.OfType<string>());
        }
    }
}

/// <summary>The cups of a bag that one brewer made.</summary>
/// <param name="Brewer">The brewer.</param>
/// <param name="Cups">Its cups, in the order in which they were tasted.</param>
public sealed record BrewerCups(string Brewer, IReadOnlyList<TimelineCup> Cups);

/// <summary>Every cup of one bag in the order of its days, whatever became of it, and the mean of those that count.</summary>
public sealed class BagTimeline : TastingResult
{
    internal BagTimeline(Bag bag, IReadOnlyList<TimelineCup> cups, double? mean, MeanInterval? interval, Scale scale, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (Bag, Cups, Mean, Interval, Scale) = (bag, cups, mean, interval, scale);
    }

    /// <summary>The bag.</summary>
    public Bag Bag { get; }

    /// <summary>All of its cups, in the order in which they were tasted.</summary>
    public IReadOnlyList<TimelineCup> Cups { get; }

    /// <summary>The mean score of the cups that count, as they are; nothing where none does.</summary>
    public double? Mean { get; }

    /// <summary>The 95 % interval of that mean; nothing of fewer than three cups.</summary>
    public MeanInterval? Interval { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <summary>Whether days are counted from the roast date; else they are counted from the first cup.</summary>
    public bool IsFromRoasting => Bag.RoastDate is not null;

    /// <summary>The day on which the bag was opened, counted as the cups' days are; nothing where it isn't known.</summary>
    public int? OpenedOnDay => Bag.OpenedOn is { } opened ? opened.DayNumber - FirstDay : null;

    /// <summary>The days on which doses went into a freezer, counted alike.</summary>
    public IReadOnlyList<int> FrozenOnDays => DaysOf(cup => cup.FrozenOn);

    /// <summary>The days on which doses were thawed, counted alike.</summary>
    public IReadOnlyList<int> ThawedOnDays => DaysOf(cup => cup.ThawedOn);

    /// <summary>The cups by brewer, the brewer of most cups first.</summary>
    public IReadOnlyList<BrewerCups> Brewers =>
        [.. Cups.GroupBy(cup => cup.Brewer).OrderByDescending(brewer => brewer.Count()).ThenBy(brewer => brewer.Key, StringComparer.Ordinal).Select(brewer => new BrewerCups(brewer.Key, [.. brewer]))];

    /// <inheritdoc/>
    public override string Question => $"What was bag {Bag.Id} like, cup by cup?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var counted = Cups.Count(cup => cup.Counts);
        var mean = (Mean, Interval) switch
        {
            ({ } value, { } interval) => $"the {counted} that count have a mean of {NumberText.Fixed(value)} (95 % interval {NumberText.Interval(interval.Low, interval.High)})",
            ({ } value, null) => $"the {NumberText.Count(counted, "cup that counts has", "cups that count have")} a mean of {NumberText.Fixed(value)}, too few for an interval",
            _ => "none of them counts",
        };
        var days = Cups[0].Day == Cups[^1].Day ? $"on day {Cups[0].Day}" : $"from day {Cups[0].Day} to {Cups[^1].Day}";
        var sentences = new List<string>
        {
            $"{Bag.Coffee.Label}, bag {Bag.Id}: {NumberText.Count(Cups.Count, "cup")} {days} {(IsFromRoasting ? "after roasting" : "from the first cup")}; {mean}.",
            $"By brewer: {string.Join(", ", Brewers.Select(brewer => $"{brewer.Brewer} {brewer.Cups.Count}"))}.",
        };
        if (counted < Cups.Count)
            sentences.Add($"Not counted: {string.Join(", ", Cups.Where(cup => !cup.Counts).GroupBy(cup => cup.Standing).Select(each => $"{each.Count()} {each.Key}"))}.");
        string[] kept = [.. new[] { OpenedOnDay is { } opened ? $"opened on day {opened}" : null, Said("frozen", FrozenOnDays), Said("thawed", ThawedOnDays) }.OfType<string>()];
        sentences.Add(kept.Length == 0 ? "The log does not say when the bag was opened." : $"The bag: {string.Join("; ", kept)}.");
        return sentences;

        static string? Said(string what, IReadOnlyList<int> days) => days.Count switch
        {
            0 => null,
            1 => $"{what} on day {days[0]}",
            _ => $"{what} on {days.Count} days, day {days[0]} to {days[^1]}",
        };
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "The cups of the bag",
        [
            new TableColumn("what", "Cup", ColumnKind.Text),
            new TableColumn("tasted_on", "Day", ColumnKind.Text),
            new TableColumn("day", IsFromRoasting ? "After roasting" : "From the first cup", ColumnKind.Count, "days"),
            new TableColumn("rest_days", "Rest", ColumnKind.Count, "days"),
            new TableColumn("brewer", "Brewer", ColumnKind.Text),
            new TableColumn("recipe", "Recipe", ColumnKind.Text),
            new TableColumn("score", "Score", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("standing", "Standing", ColumnKind.Text),
        ],
        [.. Cups.Select(cup => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(cup.Cup.Id), new TableCell.Text(cup.Cup.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), new TableCell.Count(cup.Day),
                cup.Cup.RestDays is { } rest ? new TableCell.Count(rest) : new TableCell.Missing("no roast date"),
                new TableCell.Text(cup.Brewer), new TableCell.Text(cup.Recipe), cup.Cup.Score is { } score ? new TableCell.Number(score) : new TableCell.Missing("no score"),
                new TableCell.Text(cup.Standing),
            ])]);

    private int FirstDay => (Bag.RoastDate ?? Cups[0].Cup.TastedOn).DayNumber;

    private int[] DaysOf(Func<Tasting, DateOnly?> date) => [.. Cups.Select(cup => date(cup.Cup)).OfType<DateOnly>().Distinct().Order().Select(day => day.DayNumber - FirstDay)];
}
