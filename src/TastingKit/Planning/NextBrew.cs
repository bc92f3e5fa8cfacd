namespace TastingKit;

/// <summary>
/// What to brew next to settle a question: every cup that can be brewed by what it is expected to do for the answer, and a plan of the next few.
/// </summary>
public sealed class NextBrew : TastingResult
{
    private const double HardlyMatters = 0.8;
    private const int RowsShown = 20;
    private const double LittleVariance = 0.02;
    private const double LittleProbability = 0.01;

    internal NextBrew(
        BrewQuestion asked, string askedInWords, IReadOnlyList<Coffee> coffees, int? leader, StandardBrew standardBrew, BrewStand now, IReadOnlyList<BrewGain> gains, IReadOnlyList<PlannedBrew> plan, IReadOnlyList<BagsLeftOut> leftOut,
        Scale scale, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (Asked, AskedInWords, Coffees, Named, StandardBrew, Now, Gains, Plan, LeftOut, Scale) = (asked, askedInWords, coffees, leader is { } i ? coffees[i] : null, standardBrew, now, gains, plan, leftOut, scale);
    }

    /// <summary>The question to settle.</summary>
    public BrewQuestion Asked { get; }

    /// <summary>The same in words, with the names that were chosen where none were given.</summary>
    public string AskedInWords { get; }

    /// <summary>The coffees that the question is about; empty where it is about coffees like the log's.</summary>
    public IReadOnlyList<Coffee> Coffees { get; }

    /// <summary>The coffee that would be named the best now, by its predicted score; <see langword="null"/> where no best is asked.</summary>
    public Coffee? Named { get; }

    /// <summary>The brew under which coffees are compared, where the question is about coffees.</summary>
    public StandardBrew StandardBrew { get; }

    /// <summary>Where the answer stands now.</summary>
    public BrewStand Now { get; }

    /// <summary>Every cup that can be brewed first, the highest gain first.</summary>
    public IReadOnlyList<BrewGain> Gains { get; }

    /// <summary>The next cups in order, each with the highest gain once those before it are brewed.</summary>
    public IReadOnlyList<PlannedBrew> Plan { get; }

    /// <summary>Bags that can't be brewed from on the first day, by reason.</summary>
    public IReadOnlyList<BagsLeftOut> LeftOut { get; }

    /// <summary>Cups that could be brewed first and are not ranked, since the log can't tell some part of their brew from another.</summary>
    public int Untold { get; internal init; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => AskedInWords.Length == 0 ? "What to brew next?" : $"What to brew next, to settle {AskedInWords}?";

    /// <summary>Where an answer stands, in words.</summary>
    /// <param name="stand">Where it stands.</param>
    public static string Say(BrewStand stand)
    {
        ArgumentNullException.ThrowIfNull(stand);
        return stand.IsProbability ? NumberText.Probability(Math.Clamp(stand.Value, 0, 1)) : $"\u00b1 {NumberText.Fixed(stand.Value, 3)}";
    }

    /// <summary>A gain in words: per cent of the variance, or points of a hundred of the probability.</summary>
    /// <param name="gain">The gain.</param>
    public string Say(BrewGain gain)
    {
        ArgumentNullException.ThrowIfNull(gain);
        return Now.IsProbability ? $"{NumberText.Difference(100 * gain.Gain, 1)} points of 100" : $"{NumberText.Fixed(100 * gain.Gain, 1)} % less variance";
    }

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var first = Gains[0];
        var middle = Gains[Gains.Count / 2];
        var sentences = new List<string>
        {
            TellsLittle
                ? $"No cup that can be brewed now does much to settle {AskedInWords}: the best of {Gains.Count}, {first.Candidate}, takes {What} from {Say(Now)} to {Say(first.After)} ({NumberText.Count(Computation.CupsUsed, "cup")} so far)."
                : $"To settle {AskedInWords}, next brew {first.Candidate}: {What} goes from {Say(Now)} to {Say(first.After)} ({NumberText.Count(Gains.Count, "possible cup")}, {NumberText.Count(Computation.CupsUsed, "cup")} so far).",
            Coffees.Count == 0 ? "" : $"{WithABag} of {NumberText.Count(Coffees.Count, "coffee")} asked about {(WithABag == 1 ? "has" : "have")} a bag to brew from.{(Named is null ? "" : $" Now {Named.Label} would be named.")}",
            TellsLittle ? "" : $"Why: {first.Reason}.",
            Gains.Count == 1 || TellsLittle ? ""
                : middle.Gain >= HardlyMatters * first.Gain
                    ? $"It hardly matters which: the middle one of the possible cups would bring it to {Say(middle.After)}."
                    : $"The middle one of the possible cups would bring it to {Say(middle.After)}, the last to {Say(Gains[^1].After)}.",
        };
        if (Plan.Count > 1)
        {
            sentences.Add(TellsLittle
                ? $"The next {Plan.Count} cups together would bring it to {Say(Plan[^1].After)}."
                : $"The next {Plan.Count} cups by this plan would bring it to {Say(Plan[^1].After)}: {string.Join("; ", Plan.GroupBy(step => step.Candidate.Day).Select(day => $"on {BrewSlot.Said(day.Key)} {string.Join(", then ", day.Select(step => step.Candidate.ToString()))}"))}.");
        }

        if (LeftOut.Count > 0)
            sentences.Add($"Not considered: {string.Join("; ", LeftOut.Select(left => $"{NumberText.Count(left.Bags, "bag")} {left.Reason}"))}.");
        if (Untold > 0)
            sentences.Add($"Not ranked: {NumberText.Count(Untold, "possible cup")} of brews that the log can\u2019t tell apart, since their parts never changed one without the other.");
        return [.. sentences.Where(sentence => sentence.Length > 0)];
    }

    /// <summary>Whether even the best cup does next to nothing: under two per cent of the variance (one of the interval), or a point of 100.</summary>
    internal bool TellsLittle => Gains[0].Gain < (Now.IsProbability ? LittleProbability : LittleVariance);

    private int WithABag => Coffees.Count(coffee => Gains.Any(gain => gain.Candidate.Bag.Coffee.Id == coffee.Id));

    /// <summary>What the stand is, as the subject of a sentence.</summary>
    internal string What => Now.IsProbability ? "the probability of naming the right one" : "the 95 % interval";

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        Gains.Count > RowsShown ? $"Cups by expected gain, the first {RowsShown} of {Gains.Count}" : "Cups by expected gain",
        [
            new TableColumn("what", "Coffee", ColumnKind.Text),
            new TableColumn("brew", "Brew", ColumnKind.Text),
            new TableColumn("gain", Now.IsProbability ? "Rise of the probability" : "Variance taken off", ColumnKind.Number, Now.IsProbability ? "points of 100" : "% of the variance", 1),
            Now.IsProbability
                ? new TableColumn("after", "Probability after it", ColumnKind.Probability)
                : new TableColumn("after", "Half of the 95 % interval after it", ColumnKind.Number, ScaleText.Unit(Scale), 3),
            new TableColumn("cups", "Cups of the coffee", ColumnKind.Count),
            new TableColumn("rest_days", "Days of rest", ColumnKind.Count),
            new TableColumn("grams_left", "Grams left", ColumnKind.Number, "g", 0),
            new TableColumn("bag", "Bag", ColumnKind.Text),
            new TableColumn("reason", "Why", ColumnKind.Text),
        ],
        [.. Gains.Take(RowsShown).Select(gain => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(gain.Candidate.Bag.Coffee.Label),
                new TableCell.Text(gain.Candidate.Brew),
                new TableCell.Number(100 * gain.Gain),
                Now.IsProbability ? new TableCell.Share(Math.Clamp(gain.After.Value, 0, 1)) : new TableCell.Number(gain.After.Value),
                new TableCell.Count(gain.CupsSoFar),
                gain.Candidate.RestDays is { } rest ? new TableCell.Count(rest) : new TableCell.Missing("no roast date"),
                new TableCell.Number(gain.Candidate.GramsLeft),
                new TableCell.Text($"{gain.Candidate.Bag.Id}{(gain.Candidate.IsSealed ? ", sealed" : "")}"),
                new TableCell.Text(gain.Reason),
            ])]);
}
