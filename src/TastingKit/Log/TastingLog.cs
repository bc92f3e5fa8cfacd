namespace TastingKit;

/// <summary>A year (or any stretch) of one taster's cups, read and accounted for. Immutable.</summary>
public sealed partial class TastingLog
{
    private readonly Dictionary<TastingAttribute, Scale> _scales;

    /// <summary>Puts a log together from parts that are already sound.</summary>
    /// <param name="contents">The parts. Each tasting's bag must be among the bags.</param>
    /// <exception cref="ArgumentException">Two bags or two tastings share an identifier, or a tasting's bag is not in the log.</exception>
    public TastingLog(LogContents contents)
    {
        ArgumentNullException.ThrowIfNull(contents);
        Name = contents.Name;
        Bags = [.. contents.Bags];
        var bagsById = new Dictionary<string, Bag>(StringComparer.Ordinal);
        foreach (var bag in Bags)
        {
            if (!bagsById.TryAdd(bag.Id, bag))
                throw new ArgumentException($"Two bags have the identifier '{bag.Id}'.", nameof(contents));
        }

        Coffees = [.. Bags.Select(bag => bag.Coffee).DistinctBy(coffee => coffee.Id)];
        _scales = contents.Scales.ToDictionary(scale => scale.Attribute);
        var attributes = TastingAttribute.Defaults.Where(_scales.ContainsKey).ToHashSet();
        Tasting[] tastings = [.. contents.Tastings];
        var seen = CupsSeen.Of(tastings, bagsById);
        if (seen.Astray is { } astray)
            throw new ArgumentException($"Tasting '{astray.Id}' is of bag '{astray.Bag.Id}', which the log does not hold.", nameof(contents));
        attributes.UnionWith(seen.Attributes);
        // Identifiers each of which lies above the one before are unique. So the order is total, and a sort need not be stable.
        if (!seen.RisesById && tastings.CountBy(tasting => tasting.Id, StringComparer.Ordinal).FirstOrDefault(id => id.Value > 1) is { Key: { } repeated })
            throw new ArgumentException($"Two tastings have the identifier '{repeated}'.", nameof(contents));
        if (!seen.IsInOrder)
            Array.Sort(tastings, Order);
        Tastings = Array.AsReadOnly(tastings);
        Attributes = [.. attributes.OrderBy(DefaultOrder).ThenBy(a => a.Name, StringComparer.Ordinal)];
        PublishedVerdicts = [.. contents.PublishedVerdicts];
        BlindTests = [.. contents.BlindTests];
        Changes = [.. contents.Changes.OrderBy(change => change.ChangedOn)];
        Problems = [.. contents.Problems];
        Confirmed = [.. contents.Confirmed];
        Accounts = [.. contents.Accounts];
        Filters = [.. contents.Filters];
        Vocabulary = contents.Vocabulary;
    }

    /// <summary>The log's name: the folder or file it was read from, without its path.</summary>
    public string Name { get; }

    /// <summary>The bags, in the order of the file.</summary>
    public IReadOnlyList<Bag> Bags { get; }

    /// <summary>The coffees (green lots) of the bags, in the order first met.</summary>
    public IReadOnlyList<Coffee> Coffees { get; }

    /// <summary>Every accepted cup, by time, then position, then identifier.</summary>
    public IReadOnlyList<Tasting> Tastings { get; }

    /// <summary>The attributes that any cup has a value for, the score left out; the default ones first.</summary>
    public IReadOnlyList<TastingAttribute> Attributes { get; }

    /// <summary>What was said in public.</summary>
    public IReadOnlyList<PublishedVerdict> PublishedVerdicts { get; }

    /// <summary>Blind discrimination tests.</summary>
    public IReadOnlyList<BlindTest> BlindTests { get; }

    /// <summary>Changes of water or equipment, by day.</summary>
    public IReadOnlyList<EquipmentChange> Changes { get; }

    /// <summary>Every report made while reading, in the order of files and lines.</summary>
    public IReadOnlyList<LogProblem> Problems { get; private set; }

    /// <summary>The doubts that the user confirmed in <c>accepted.csv</c>, and which are not among <see cref="Problems"/>.</summary>
    public IReadOnlyList<ConfirmedDoubt> Confirmed { get; private set; }

    /// <summary>How the rows of each file were accounted for.</summary>
    public IReadOnlyList<RowAccount> Accounts { get; private set; }

    /// <summary>How the log was narrowed since it was read, in order; empty for the whole log.</summary>
    public IReadOnlyList<LogFilter> Filters { get; }

    /// <summary>The words that the log was read with: the kit's, and the user's own before them.</summary>
    public Vocabulary Vocabulary { get; }

    /// <summary>The scale of an attribute: the log's own, or <see cref="Scale.Default"/> where it does not say.</summary>
    public Scale ScaleOf(TastingAttribute attribute) =>
        _scales.TryGetValue(attribute, out var scale) ? scale : Scale.Default(attribute);

    /// <summary>The scales that the log states.</summary>
    internal IReadOnlyList<Scale> StatedScales => [.. _scales.Values];

    /// <summary>Who watches what is asked of this log.</summary>
    internal WorkWatch Watch { get; private set; } = WorkWatch.None;

    /// <summary>
    /// The same log, watched: whatever is asked of it, or of a result that it gave, reports how far it has come and ends when told to. For
    /// work of a second or more; no result changes by it.
    /// </summary>
    /// <param name="watch">Who watches: <see cref="WorkWatch.Of"/> an <see cref="IProgress{T}"/> and a <see cref="CancellationToken"/>.</param>
    public TastingLog WatchedBy(WorkWatch watch)
    {
        ArgumentNullException.ThrowIfNull(watch);
        var watched = (TastingLog)MemberwiseClone();
        watched.Watch = watch;
        return watched;
    }

    /// <summary>The same log, its reports under other names of its files.</summary>
    internal TastingLog WithReports(Func<string, string> nameOf)
    {
        if (Accounts.All(account => nameOf(account.File) == account.File))
            return this;
        var renamed = (TastingLog)MemberwiseClone();
        renamed.Problems = [.. Problems.Select(Renamed)];
        renamed.Confirmed = [.. Confirmed.Select(confirmed => confirmed with { Problem = Renamed(confirmed.Problem) })];
        renamed.Accounts = [.. Accounts.Select(account => account with { File = nameOf(account.File) })];
        return renamed;

        LogProblem Renamed(LogProblem problem) => problem with { File = nameOf(problem.File) };
    }

    internal static int Order(Tasting left, Tasting right)
    {
        var byTime = left.TastedAt.CompareTo(right.TastedAt);
        if (byTime != 0)
            return byTime;
        var byPosition = (left.Position ?? 0).CompareTo(right.Position ?? 0);
        return byPosition != 0 ? byPosition : string.CompareOrdinal(left.Id, right.Id);
    }

    private static int DefaultOrder(TastingAttribute attribute)
    {
        for (var i = 0; i < TastingAttribute.Defaults.Count; i++)
        {
            if (TastingAttribute.Defaults[i].Equals(attribute))
                return i;
        }

        return TastingAttribute.Defaults.Count;
    }
}

/// <summary>The parts of a log, as a reader or a simulator hands them over.</summary>
public sealed record LogContents
{
    /// <summary>The log's name, shown on pages.</summary>
    public required string Name { get; init; }

    /// <summary>The bags.</summary>
    public required IReadOnlyList<Bag> Bags { get; init; }

    /// <summary>The cups.</summary>
    public required IReadOnlyList<Tasting> Tastings { get; init; }

    /// <summary>Scales that differ from <see cref="Scale.Default"/> or are stated outright; at most one an attribute.</summary>
    public IReadOnlyList<Scale> Scales { get; init; } = [];

    /// <summary>What was said in public.</summary>
    public IReadOnlyList<PublishedVerdict> PublishedVerdicts { get; init; } = [];

    /// <summary>Blind discrimination tests.</summary>
    public IReadOnlyList<BlindTest> BlindTests { get; init; } = [];

    /// <summary>Changes of water or equipment.</summary>
    public IReadOnlyList<EquipmentChange> Changes { get; init; } = [];

    /// <summary>Reports made while reading.</summary>
    public IReadOnlyList<LogProblem> Problems { get; init; } = [];

    /// <summary>Doubts that the user confirmed.</summary>
    public IReadOnlyList<ConfirmedDoubt> Confirmed { get; init; } = [];

    /// <summary>How the rows of each file were accounted for.</summary>
    public IReadOnlyList<RowAccount> Accounts { get; init; } = [];

    /// <summary>The words that the log was read with.</summary>
    public Vocabulary Vocabulary { get; init; } = Vocabulary.Shipped;

    /// <summary>How the log was narrowed already.</summary>
    public IReadOnlyList<LogFilter> Filters { get; init; } = [];
}
