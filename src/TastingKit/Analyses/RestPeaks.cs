namespace TastingKit;

/// <summary>When coffees are at their best: the course over effective rest, by kind of coffee, and whether it has a peak within the days tasted.</summary>
public sealed class RestPeaks : TastingResult
{
    internal RestPeaks(
        RestPeaksAnalysis.Question question, IReadOnlyList<RestGroup> groups, IReadOnlyList<UnansweredRest> unanswered, StandardBrew standardBrew, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (By, Attribute, Near, Margin, DriftPerYear) = (question.By, question.Attribute, question.Near, question.Margin, question.DriftPerYear);
        Groups = groups;
        Unanswered = unanswered;
        StandardBrew = standardBrew;
        Scale = scale;
    }

    /// <summary>What sorts coffees into kinds; <see langword="null"/> for all of them together.</summary>
    public Factor? By { get; }

    /// <summary>What is followed over rest.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>The kinds, in ordinal order. What is called sure of any of them is so of all at once.</summary>
    public IReadOnlyList<RestGroup> Groups { get; }

    /// <summary>Kinds of which too little was tasted for an answer of their own.</summary>
    public IReadOnlyList<UnansweredRest> Unanswered { get; }

    /// <summary>Points of the scale within which a day counts as among the best.</summary>
    public double Near { get; }

    /// <summary>Points of the scale from which a difference matters: a course that stays within is flat.</summary>
    public double Margin { get; }

    /// <summary>Points a year by which the scale may have drifted either way, for <see cref="RestGroup.UnderDrift"/>.</summary>
    public double DriftPerYear { get; }

    /// <summary>The brew under which the courses are told; its days of rest are those of the course.</summary>
    public StandardBrew StandardBrew { get; }

    /// <summary>The scale of the attribute.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => By is null ? $"When does {Subject} peak as coffees rest?" : $"When does {Subject} peak as coffees rest, by {By.Name}?";

    private string Subject => MethodWords.Named(Attribute);

    /// <summary>What is said of one kind, as a sentence.</summary>
    public string Say(RestGroup group)
    {
        ArgumentNullException.ThrowIfNull(group);
        var who = By is null ? MethodWords.SentenceCase(Subject) : $"{MethodWords.SentenceCase(group.Level)}: {Subject}";
        var counts = $"{NumberText.Count(group.Cups, "cup")} of {NumberText.Count(group.Bags, "bag")}, day {group.Days[0].RestDays} to {group.Days[^1].RestDays}";
        return group.Outcome.Match(
            peak => $"{who} peaks around day {peak.Day} of rest (95 % interval day {peak.Low} to {peak.High}; {counts}).",
            _ => $"{who} is still rising on day {group.Days[^1].RestDays} of rest, the last tasted ({counts}).",
            _ => $"{who} falls from day {group.Days[0].RestDays} of rest, the first tasted ({counts}).",
            flat => $"{who} stays flat: no two days tasted differ by {NumberText.Fixed(flat.Margin)} points ({counts}).",
            undetermined => $"{who} is not shown to peak: {undetermined.Reason} ({counts}).");
    }

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var named = Groups.Where(g => g.Outcome is RestOutcome.Peak).ToArray();
        var sentences = new List<string>();
        if (By is not null)
        {
            var cups = NumberText.Count(Computation.CupsUsed, "cup");
            sentences.Add((named.Length, Groups.Count) switch
            {
                (0, 1) => $"Of {Groups[0].Level}, the only kind by {By.Name} with cups enough, no peak within the days tasted is sure ({cups}).",
                (0, _) => $"For none of {NumberText.Count(Groups.Count, "kind")} by {By.Name} is a peak within the days tasted sure ({cups}).",
                _ => $"A peak within the days tasted is sure for {named.Length} of {NumberText.Count(Groups.Count, "kind")} by {By.Name}: {string.Join(", ", named.Select(g => $"{g.Level} around day {((RestOutcome.Peak)g.Outcome).Day}"))} ({cups}).",
            });
        }

        foreach (var group in Groups)
        {
            var bestDays = group.NamesBestDays
                ? $"Its best days, within {NumberText.Fixed(Near)} points of the highest, are day {group.BestFrom} to {group.BestTo}{Ends(group)}."
                : "No best days can be named.";
            var more = group.Outcome is RestOutcome.Peak
                ? $"{bestDays} {UnderDrift(group)}"
                : $"{bestDays} The best of the days tasted lies between the first and the last with a probability of {NumberText.Probability(group.PeakInside)}.";
            if (By is null)
                sentences.AddRange([Say(group), more]);
            else
                sentences.Add($"{Say(group)} {more}");
        }

        if (Unanswered.Count > 0)
            sentences.Add($"Too few cups or bags for an answer of their own: {string.Join(", ", Unanswered.Select(u => $"{u.Level} ({NumberText.Count(u.Cups, "cup")} of {NumberText.Count(u.Bags, "bag")})"))}.");
        return sentences;
    }

    private static string Ends(RestGroup group) => (group.BestFrom == group.Days[0].RestDays, group.BestTo == group.Days[^1].RestDays) switch
    {
        (true, true) => ", which are all that were tasted",
        (true, false) => ", the first being the first tasted",
        (false, true) => ", the last being the last tasted",
        _ => "",
    };

    private string UnderDrift(RestGroup group) =>
        $"Had the scale drifted by {NumberText.Fixed(DriftPerYear)} points a year, it would be {string.Join(" or ", group.UnderDrift.Select(drift => drift.Outcome.Match(
            peak => $"day {peak.Day}", _ => "still rising", _ => "falling from the start", _ => "flat", _ => "undetermined") + (drift.PerYear > 0 ? " (upwards)" : " (downwards)")))}.";

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"The peak of {Subject} over rest",
        [
            new TableColumn("what", By is null ? "Coffees" : MethodWords.SentenceCase(By.Name), ColumnKind.Text),
            new TableColumn("outcome", "Outcome", ColumnKind.Text),
            new TableColumn("estimate", "Peak", ColumnKind.Count, "days"),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, "days", 0),
            new TableColumn("best_days", $"Best days, within {NumberText.Fixed(Near)} points", ColumnKind.Interval, "days", 0),
            new TableColumn("peak_inside", "Peak within the days tasted", ColumnKind.Probability),
            new TableColumn("days_tasted", "Days tasted", ColumnKind.Interval, "days", 0),
            new TableColumn("drift_down", $"Peak, scale falling {NumberText.Fixed(DriftPerYear)} a year", ColumnKind.Count, "days"),
            new TableColumn("drift_up", $"Peak, scale rising {NumberText.Fixed(DriftPerYear)} a year", ColumnKind.Count, "days"),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("bags", "Bags", ColumnKind.Count),
        ],
        [.. Groups.Select(g => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(g.Level), new TableCell.Text(Word(g.Outcome)),
                g.Outcome is RestOutcome.Peak peak ? new TableCell.Count(peak.Day) : NoPeak,
                g.Outcome is RestOutcome.Peak { } p ? new TableCell.Interval(p.Low, p.High) : NoPeak,
                g.NamesBestDays ? new TableCell.Interval(g.BestFrom, g.BestTo) : new TableCell.Missing("no best days can be named"), new TableCell.Share(g.PeakInside), new TableCell.Interval(g.Days[0].RestDays, g.Days[^1].RestDays),
                .. g.UnderDrift.Select(drift => drift.Outcome is RestOutcome.Peak moved ? (TableCell)new TableCell.Count(moved.Day) : NoPeak),
                new TableCell.Count(g.Cups), new TableCell.Count(g.Bags),
            ])]);

    private static TableCell.Missing NoPeak { get; } = new("no peak named");

    private static string Word(RestOutcome outcome) => outcome.Match(_ => "peak", _ => "still rising", _ => "falling from the start", _ => "flat", _ => "undetermined");
}
