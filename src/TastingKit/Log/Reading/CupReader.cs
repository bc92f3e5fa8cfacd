using System.Collections.ObjectModel;
using System.Globalization;
using System.Runtime.InteropServices;

namespace TastingKit.Reading;

/// <summary>Reads the rows on cups, of <c>tastings.csv</c> or of one table that holds the bags too.</summary>
internal sealed class CupReader
{
    private const double LeastRatio = 5;
    private const double MostRatio = 30;
    // A ratio is written in whole numbers: 1:16 of 15 g and 250 g.
    private const double RatioRounding = 0.05;
    private const double LeastExtraction = 10;
    private const double MostExtraction = 30;

    private readonly BagRegister _bags;
    private readonly bool _bagsAreInTheTable;
    private readonly IReadOnlyList<TastingAttribute> _attributes;
    private readonly IReadOnlyDictionary<TastingAttribute, Scale> _scales;
    private readonly AttributeRoom.Maker _values;
    private readonly List<Tasting> _cups = [];
    private readonly List<int> _lines = [];
    private readonly Identifiers _ids = new();
    private readonly List<int> _withoutId = [];
    private readonly List<ulong> _contents = [];
    private readonly IReadOnlyList<Bag> _knownBags;
    private readonly Dictionary<string, Bag> _bagsById;
    private Bag? _lastBag;
    private readonly KnownWords _words;
    private KnownWords.OfColumn? _brewers;
    private KnownWords.OfColumn? _notes;
    private KnownWords.OfColumn? _guesses;
    private readonly OtherWords _otherWords = new();
    private readonly WrittenTexts.Maker _written = new();
    private TastingDetails _details = TastingDetails.None;

    /// <summary>Makes a reader.</summary>
    /// <param name="bags">The bags known so far; a table that holds them adds its own.</param>
    /// <param name="bagsAreInTheTable">Whether the cups' file has the bags' columns too.</param>
    /// <param name="scales">The scales that the log states.</param>
    /// <param name="words">The words that the vocabulary knows.</param>
    public CupReader(BagRegister bags, bool bagsAreInTheTable, IReadOnlyDictionary<TastingAttribute, Scale> scales, KnownWords words)
    {
        (_bags, _bagsAreInTheTable, _scales, _words) = (bags, bagsAreInTheTable, scales, words);
        _knownBags = bagsAreInTheTable ? [] : bags.ToBags();
        _bagsById = _knownBags.ToDictionary(bag => bag.Id, StringComparer.Ordinal);
        _attributes = [.. TastingAttribute.Defaults.Concat(scales.Keys.OrderBy(a => a.Name, StringComparer.Ordinal)).Distinct()
            .Where(attribute => !attribute.Equals(TastingAttribute.Score))];
        _values = new AttributeRoom.Maker([.. _attributes]);
    }

    /// <summary>The attributes that had a column in the file.</summary>
    public IReadOnlySet<TastingAttribute> AttributesWithColumn { get; private set; } = ReadOnlySet<TastingAttribute>.Empty;

    /// <summary>Reads the file.</summary>
    public void Read(SourceFile file, FileReports reports, ColumnMap map, CancellationToken cancellation)
    {
        _brewers = _words.Column(reports, "brewer", VocabularyKind.Brewer);
        _notes = _words.Column(reports, "notes", VocabularyKind.Note);
        _guesses = _words.Column(reports, "guess_process", VocabularyKind.Process);
        var likelyRows = file.LikelyRows;
        _cups.EnsureCapacity(likelyRows);
        _lines.EnsureCapacity(likelyRows);
        _ids.Expect(likelyRows);
        _contents.EnsureCapacity(likelyRows);
        var columns = TastingColumns.For(_scales, _attributes);
        if (_bagsAreInTheTable)
            columns = [.. columns, .. BagColumns.All.Where(column => column != BagColumns.Id).Select(column => new BagPart(column))];
        var fields = new Table<TastingRow>
        {
            Columns = columns,
            IdColumn = "tasting_id",
            Map = map,
            Begin = () => new TastingRow(_attributes.Count, _bagsAreInTheTable),
            Clear = row => row.Clear(),
            KeepOthers = (row, others) => row.OtherColumns = others,
            End = Take,
        }.Read(file, reports, cancellation);

        var named = fields.Where(field => field.Column is ScoreColumn).Select(field => TastingAttribute.Named(field.Column!.Name));
        AttributesWithColumn = named.ToHashSet();
        _otherWords.CountUses();
        NameCupsWithoutId(reports);
    }

    /// <summary>The bags and the cups; to be called once all files that speak of them are read.</summary>
    public (IReadOnlyList<Bag> Bags, Tasting[] Tastings) Finish()
    {
        var bags = _bagsAreInTheTable ? _bags.ToBags() : _knownBags;
        if (_bagsAreInTheTable)
        {
            var byId = bags.ToDictionary(bag => bag.Id, StringComparer.Ordinal);
            foreach (ref var cup in CollectionsMarshal.AsSpan(_cups))
                cup = cup with { Bag = byId[cup.Bag.Id] };
        }

        return (bags, [.. _cups]);
    }

    /// <summary>The line of a cup, by its place in the file.</summary>
    public int LineOf(int index) => _lines[index];

    /// <summary>What the row of each cup says, its identifier left out.</summary>
    public List<ulong> Contents => _contents;

    /// <summary>The scored columns of the file, the overall score among them, each with its scale.</summary>
    public IReadOnlyList<Scale> ScoredColumns => [.. AttributesWithColumn.OrderBy(attribute => attribute.Name, StringComparer.Ordinal).Select(ScaleOf)];

    private void Take(TastingRow row, RowReports reports)
    {
        if (row.BagId is { } written && !_bagsAreInTheTable && KnownBag(written) is null)
            _bags.Require(written, "bag_id", reports);
        if (row.IsNeverFilledIn)
        {
            // How strong something is may be nothing at all; how good a cup is never stands at nought on every count.
            var severity = ScaleOf(TastingAttribute.Score).Kind == ScaleKind.Intensity ? Severity.Doubtful : Severity.Rejected;
            reports.Row(severity, "0", new CellFault(Rule.NeverFilledIn,
                "The score and every attribute are noughts, as in a form that was saved before it was filled in.", "scores, or empty cells for a cup that was not scored"));
        }

        var isRepeated = false;
        if (row.Id is { } id && !_ids.TryAdd(id, reports.Line, out var first))
        {
            isRepeated = true;
            reports.Column(Severity.Rejected, "tasting_id", id, new CellFault(Rule.DuplicateId,
                FormattableString.Invariant($"The identifier stands on line {first} already."), "an identifier of its own for each cup"));
        }

        CheckRow(row, reports);
        if (reports.Rejected || row is not { BagId: { } bagId, TastedAt: { } moment })
        {
            // A rejected row leaves its identifier to a later one.
            if (!isRepeated && row.Id is { } unused)
                _ids.RemoveLast(unused);
            return;
        }

        if (row.Id is null)
            _withoutId.Add(_cups.Count);
        if (row.IsTestEntry)
        {
            reports.Row(Severity.Doubtful, row.Id ?? "", new CellFault(
                Rule.TestEntry, "The row looks like a try-out of the form; it stays in the log, and out of analyses of scores.", "a cup that was tasted; take the row out if it is none"));
        }

        if (row.Bag is { } bag)
        {
            bag.Id = bagId;
            _bags.AddFromCup(bag, reports);
        }

        _cups.Add(ToTasting(row, bagId, moment, reports.Line));
        _lines.Add(reports.Line);
        _contents.Add(reports.Content);
    }

    private Tasting ToTasting(TastingRow row, string bagId, Moment moment, int line)
    {
        var brewer = row.Brewer is { } brewed ? _brewers!.Canonical(brewed, line) : null;
        var guess = row.GuessedProcess is { } guessed ? _guesses!.Canonical(guessed, line) : null;
        // By its letters: the same word is another object to each thread that judges.
        if (brewer != row.Brewer)
            row.KeepWritten("brewer", row.Brewer!);
        var notes = row.Notes;
        if (notes.Count > 0)
        {
            (notes, var asNoted) = _otherWords.Of(row.Notes, _notes!, line);
            if (asNoted is not null)
                row.KeepWritten("notes", asNoted);
        }

        if (guess != row.GuessedProcess)
            row.KeepWritten("guess_process", row.GuessedProcess!);
        return new Tasting
        {
            Id = row.Id ?? "",
            Bag = BagOf(bagId),
            TastedAt = moment.WallClock,
            HasTimeOfDay = moment.HasTimeOfDay,
            Session = row.Session,
            Position = row.Position,
            Purpose = row.Purpose ?? Purpose.Verdict,
            Failed = row.Failed ?? false,
            Brewer = brewer,
            Grind = row.Grind,
            Water = row.Water,
            Recipe = row.Recipe,
            DoseGrams = row.DoseGrams,
            WaterGrams = row.WaterGrams,
            WaterCelsius = row.WaterCelsius,
            BrewTime = row.BrewTime,
            BlindTo = row.BlindTo ?? BlindTo.Nothing,
            Score = row.Score,
            InRoom = AttributesOf(row),
            Notes = notes,
            Remark = row.Remark,
            IsTestEntry = row.IsTestEntry,
            Details = _details = row.DetailsLike(_details, guess),
            AsWritten = _written.Make(CollectionsMarshal.AsSpan(row.Written)),
        };
    }

    private (AttributeRoom? Room, int Start) AttributesOf(TastingRow row)
    {
        foreach (var value in row.Attributes)
        {
            if (!double.IsNaN(value))
                return _values.Keep(row.Attributes);
        }

        return default;
    }

    /// <summary>The bag, or what stands for it until all that the table says of it is read.</summary>
    private Bag BagOf(string bagId)
    {
        if (KnownBag(bagId) is { } known)
            return known;
        var bag = new Bag { Id = bagId, Coffee = new Coffee { Id = bagId } };
        _bagsById.Add(bagId, bag);
        return bag;
    }

    private Bag? KnownBag(string bagId)
    {
        // Most cups are of the bag of the cup before.
        if (_lastBag?.Id != bagId)
            _lastBag = _bagsById.GetValueOrDefault(bagId);
        return _lastBag;
    }

    private Scale ScaleOf(TastingAttribute attribute) => _scales.GetValueOrDefault(attribute) ?? Scale.Default(attribute);

    private static void CheckRow(TastingRow row, RowReports reports)
    {
        if (row is { FrozenOn: { } frozen, ThawedOn: { } thawed } && thawed < frozen)
        {
            reports.Column(Severity.Doubtful, "thawed_on", Iso(thawed), new CellFault(Rule.ThawedBeforeFrozen,
                $"The dose was thawed before it was frozen, on {Iso(frozen)}; both cells were left missing.", "a day not before frozen_on"));
            (row.FrozenOn, row.ThawedOn) = (null, null);
        }

        if (row is { FrozenOn: null, ThawedOn: { } alone })
        {
            reports.Column(Severity.Doubtful, "thawed_on", Iso(alone), new CellFault(Rule.ThawedBeforeFrozen,
                "The dose was thawed, and no day of freezing is logged; the days frozen are not known.", "frozen_on beside thawed_on"));
        }

        if (row is { TastedAt: { } moment } && DateOnly.FromDateTime(moment.WallClock) is var tasted && ((row.ThawedOn ?? row.FrozenOn) > tasted || row.FrozenOn > tasted))
        {
            var whileFrozen = row.FrozenOn <= tasted && row.ThawedOn > tasted;
            reports.Column(Severity.Doubtful, row.ThawedOn > tasted ? "thawed_on" : "frozen_on", Iso((row.ThawedOn ?? row.FrozenOn)!.Value), whileFrozen
                ? new CellFault(Rule.TastedWhileFrozen, $"The cup was tasted on {Iso(tasted)}, while its dose was frozen; frozen_on and thawed_on were left missing.", "a day of thawing not after the tasting")
                : new CellFault(Rule.FrozenAfterTasting, $"It lies after the tasting, on {Iso(tasted)}; frozen_on and thawed_on were left missing.", "days not after the tasting"));
            (row.FrozenOn, row.ThawedOn) = (null, null);
        }

        if (row is { Ratio: { } stated } && row is not { DoseGrams: not null, WaterGrams: not null } && stated is < LeastRatio or > MostRatio)
        {
            reports.Column(Severity.Doubtful, "ratio", Number(stated), new CellFault(Rule.RatioUnusual,
                $"It is a ratio of 1:{Number(Math.Round(stated, 1))}; it was kept.", $"a ratio from 1:{LeastRatio} to 1:{MostRatio}"));
        }

        if (row is { DoseGrams: { } weighed, WaterGrams: { } poured, Ratio: { } said } && Math.Abs(poured / weighed - said) > RatioRounding * said)
        {
            reports.Column(Severity.Doubtful, "ratio", Number(said), new CellFault(Rule.RatioContradicts,
                $"Water and dose make 1:{Number(Math.Round(poured / weighed, 1))}, which holds.", "the ratio that water and dose make, or an empty cell")
            {
                Beside = $"dose_g {Number(weighed)}; water_g {Number(poured)}",
            });
        }

        if (row is { DoseGrams: { } dose, WaterGrams: { } water } && water / dose is var ratio && ratio is < LeastRatio or > MostRatio)
        {
            reports.Column(Severity.Doubtful, "water_g", Number(water), new CellFault(Rule.RatioUnusual,
                $"Water and dose make 1:{Number(Math.Round(ratio, 1))}; the values were kept.", $"a ratio from 1:{LeastRatio} to 1:{MostRatio}")
            {
                Beside = $"dose_g {Number(dose)}",
            });
        }

        if (row is { DoseGrams: { } ground, YieldGrams: { } beverage, TdsPercent: { } tds }
            && beverage * tds / ground is var extraction && extraction is < LeastExtraction or > MostExtraction)
        {
            reports.Column(Severity.Doubtful, "tds_pct", Number(tds), new CellFault(Rule.ExtractionUnusual,
                $"Yield, TDS and dose make an extraction of {Number(Math.Round(extraction, 1))} %; the values were kept.",
                $"an extraction from {LeastExtraction} to {MostExtraction} %")
            {
                Beside = $"dose_g {Number(ground)}; yield_g {Number(beverage)}",
            });
        }
    }

    /// <summary>Gives each cup without an identifier one that tells its line, and so stays while rows are added below.</summary>
    private void NameCupsWithoutId(FileReports reports)
    {
        if (_withoutId.Count == 0)
            return;
        foreach (var index in _withoutId)
        {
            var line = _lines[index];
            var id = FormattableString.Invariant($"line-{line}");
            while (!_ids.TryAdd(id, line, out _))
                id += "+";
            _cups[index] = _cups[index] with { Id = id };
        }

        reports.AboutFile(_lines[_withoutId[0]], "tasting_id", "", new CellFault(Rule.DerivedId,
            FormattableString.Invariant($"{_withoutId.Count} rows have no tasting_id; each was named for its line, such as {_cups[_withoutId[0]].Id}."),
            "a tasting_id in every row, which stays when rows are sorted"));
    }

    private static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Number(double value) => value.ToString(CultureInfo.InvariantCulture);

    /// <summary>A column of the bags in a table of cups.</summary>
    private sealed class BagPart(Column<BagRow> column) : Column<TastingRow>(column.Name)
    {
        public override void Read(in Cell cell, TastingRow row, RecordReports reports) => column.Read(cell, row.Bag!, reports);

        public override (string Kept, string Other)? Merge(TastingRow into, TastingRow from) =>
            throw new NotSupportedException("Cups are never merged; their bags are.");
    }
}
