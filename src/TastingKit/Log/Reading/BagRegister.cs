using TastingKit.Checking;

namespace TastingKit.Reading;

/// <summary>
/// The rows read on bags, by identifier, and the coffees they share. Rows that contradict one another on one coffee (or, in a table of cups,
/// on one bag) are reported; the first statement holds, and what it leaves out is filled from later ones.
/// </summary>
internal sealed class BagRegister(KnownWords words)
{
    private readonly Dictionary<string, BagRow> _rows = new(StringComparer.Ordinal);
    private readonly List<BagRow> _order = [];
    private readonly Dictionary<string, BagRow> _coffees = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _rejected = new(StringComparer.Ordinal);
    private Dictionary<string, string>? _folded;
    private FileReports? _reports;

    /// <summary>Reads <c>bags.csv</c> into the register.</summary>
    public void Read(SourceFile file, FileReports reports, ColumnMap map, CancellationToken cancellation)
    {
        _reports = reports;
        var contents = new List<ulong>();
        new Table<BagRow>
        {
            Columns = BagColumns.All,
            IdColumn = "bag_id",
            Map = map,
            Begin = () => new BagRow(),
            KeepOthers = (row, others) => row.OtherColumns = others,
            NotWhole = NoteRejected,
            End = (row, rowReports) =>
            {
                row.Line = rowReports.Line;
                if (rowReports.Rejected || row.Id is not { } bagId)
                {
                    NoteRejected(rowReports);
                    return;
                }

                if (_rows.TryGetValue(bagId, out var first))
                {
                    if (IsSameBag(first, row))
                    {
                        Edit(first, row, rowReports);
                        return;
                    }

                    rowReports.Column(Severity.Rejected, "bag_id", bagId, new CellFault(Rule.DuplicateId,
                        FormattableString.Invariant($"The identifier stands on line {first.Line} already."), "an identifier of its own for each bag"));
                    return;
                }

                CheckRow(row, rowReports);
                Add(row, rowReports);
                contents.Add(rowReports.Content);
            },
        }.Read(file, reports, cancellation);
        RepeatedRows.Find(contents, (earlier, later) =>
            reports.Add(Severity.Information, _order[later].Line, _order[later].Id, "", "", RepeatedRows.Fault(_order[earlier].Line)));
    }

    /// <summary>Takes what a row of cups says of its bag: a new bag, or more on one that is known.</summary>
    public void AddFromCup(BagRow row, RowReports reports)
    {
        _reports = reports.File;
        row.Line = reports.Line;
        if (!_rows.TryGetValue(row.Id!, out var first))
        {
            CheckRow(row, reports);
            Add(row, reports);
            return;
        }

        foreach (var column in BagColumns.All)
            ReportContradiction(column.Merge(first, row), column.Name, Rule.BagContradicts, $"bag {row.Id}", first.Line, reports);
        if (row.OtherColumns.Count > 0 && first.OtherColumns.Count == 0)
            first.OtherColumns = row.OtherColumns;
    }

    /// <summary>The reports on the file that the bags stand in; <see langword="null"/> where none was read.</summary>
    public FileReports? Reports => _reports;

    /// <summary>The line on which a bag first stands.</summary>
    public int LineOf(string bagId) => _rows[bagId].Line;

    /// <summary>Whether the bag is known.</summary>
    public bool Holds(string bagId) => _rows.ContainsKey(bagId);

    /// <summary>Rejects the row where its bag is not known, and says what may be meant.</summary>
    public void Require(string bagId, string column, RowReports reports)
    {
        if (Holds(bagId))
            return;
        var why = "No row of bags.csv has this identifier.";
        if (_rejected.TryGetValue(bagId, out var line))
            why = FormattableString.Invariant($"The row of this bag, on line {line} of bags.csv, was rejected.");
        else if (FoldedIds().TryGetValue(Words.Folded(bagId), out var near))
            why = $"No row of bags.csv has this identifier; '{near}' is written like it.";
        reports.Column(Severity.Rejected, column, bagId, new CellFault(Rule.UnknownBag, why, "a bag_id of bags.csv, letter for letter"));
    }

    /// <summary>The bags in the order of the file, those of one lot sharing their coffee.</summary>
    public IReadOnlyList<Bag> ToBags()
    {
        // In a table of cups a later row may have said more of a bag than of the first bag of its lot.
        foreach (var row in _order)
        {
            foreach (var column in BagColumns.OfCoffee)
                column.Merge(_coffees[row.CoffeeId ?? row.Id!], row);
        }

        var coffees = new Dictionary<string, Coffee>(StringComparer.Ordinal);
        var bags = new List<Bag>(_order.Count);
        foreach (var row in _order)
        {
            var id = row.CoffeeId ?? row.Id!;
            if (!coffees.TryGetValue(id, out var coffee))
                coffees.Add(id, coffee = CanonicalWords.Of(_coffees[id].ToCoffee(), words, _reports!, _coffees[id].Line));
            bags.Add(row.ToBag(coffee));
        }

        return bags;
    }

    /// <summary>
    /// Whether a second row under an identifier is of the same bag, edited, and not of another one: it names what the first names as the first does,
    /// and says something that the first does not.
    /// </summary>
    private static bool IsSameBag(BagRow first, BagRow second)
    {
        static bool Agree(string? one, string? other) => one is null || other is null || Words.Folded(one) == Words.Folded(other);
        return Agree(first.CoffeeName, second.CoffeeName) && Agree(first.Roaster, second.Roaster) && Agree(first.CoffeeId, second.CoffeeId)
            && (first.CoffeeName ?? first.Roaster ?? first.CoffeeId) is not null && (second.CoffeeName ?? second.Roaster ?? second.CoffeeId) is not null
            && (first.RoastDate is null || second.RoastDate is null || first.RoastDate == second.RoastDate);
    }

    /// <summary>Takes what a second row adds to a bag, and reports what it contradicts.</summary>
    private static void Edit(BagRow first, BagRow second, RowReports reports)
    {
        reports.Column(Severity.Information, "bag_id", second.Id!, new CellFault(Rule.BagEdited,
            FormattableString.Invariant($"The bag stands on line {first.Line} already; what that leaves out was taken from here."), "one row a bag"));
        foreach (var column in BagColumns.All)
            ReportContradiction(column.Merge(first, second), column.Name, Rule.BagContradicts, $"bag {second.Id}", first.Line, reports);
        if (second.OtherColumns.Count > 0)
            first.OtherColumns = second.OtherColumns.Concat(first.OtherColumns).GroupBy(pair => pair.Key).ToDictionary(pair => pair.Key, pair => pair.Last().Value, StringComparer.Ordinal);
    }

    private void NoteRejected(RowReports reports)
    {
        if (reports.RowId is { } id)
            _rejected.TryAdd(id, reports.Line);
    }

    private void Add(BagRow row, RowReports reports)
    {
        _rows.Add(row.Id!, row);
        _order.Add(row);
        _folded = null;
        var coffeeId = row.CoffeeId ?? row.Id!;
        if (_coffees.TryAdd(coffeeId, row))
            return;
        var first = _coffees[coffeeId];
        foreach (var column in BagColumns.OfCoffee)
            ReportContradiction(column.Merge(first, row), column.Name, Rule.CoffeeContradicts, $"coffee {coffeeId}", first.Line, reports);
    }

    private static void ReportContradiction((string Kept, string Other)? contradiction, string column, string rule, string thing, int firstLine, RowReports reports)
    {
        if (contradiction is not var (kept, other))
            return;
        reports.Column(Severity.Doubtful, column, other, new CellFault(rule,
            FormattableString.Invariant($"Line {firstLine} says '{kept}' of the same {thing}; the first statement holds."), "the same in every row, or another identifier")
        {
            Beside = $"{thing} is '{kept}' above",
        });
    }

    private static void CheckRow(BagRow row, RowReports reports)
    {
        if (row is { RoastDate: { } roasted, OpenedOn: { } opened } && opened < roasted)
        {
            reports.Column(Severity.Doubtful, "opened_on", opened.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), new CellFault(
                Rule.OpenedBeforeRoast, FormattableString.Invariant($"The bag was opened before it was roasted, on {roasted:yyyy-MM-dd}; the cell was left missing."),
                "a day not before the roast date"));
            row.OpenedOn = null;
        }

        if (row is { Currency: { } currency, Price.Currency: { } beside } && !currency.Equals(beside, StringComparison.OrdinalIgnoreCase))
        {
            reports.Column(Severity.Doubtful, "price", row.Price.ToString()!, new CellFault(Rule.CurrencyContradicts,
                $"The column currency says {currency}, which holds.", "one currency, in the column currency")
            {
                Beside = $"currency {currency}",
            });
        }
    }

    private Dictionary<string, string> FoldedIds()
    {
        if (_folded is null)
        {
            _folded = new Dictionary<string, string>(StringComparer.Ordinal);
            foreach (var row in _order)
                _folded.TryAdd(Words.Folded(row.Id!), row.Id!);
        }

        return _folded;
    }
}
