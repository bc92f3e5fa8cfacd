using System.Runtime.InteropServices;
using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>Rules on the words that sort cups: those with few cups, one that begins with another, one that names several things.</summary>
internal static class LevelChecks
{
    private const int FewestCups = 20;
    private const int Few = 5;
    private const int MostLevels = 300;
    private const int MostNamed = 8;

    public static void Run(RowsToCheck rows)
    {
        var cupsOfBag = new Dictionary<Bag, (int Cups, int First)>(ReferenceEqualityComparer.Instance);
        var brewers = new Levels(VocabularyKind.Brewer, "brewer", rows.CupReports);
        var since = 0;
        for (var i = 0; i < rows.Cups.Length; i++)
        {
            brewers.Add(rows.Cups[i].Brewer, 1, i);
            // Cups of one bag mostly stand together, and are counted together.
            if (i + 1 < rows.Cups.Length && ReferenceEquals(rows.Cups[i + 1].Bag, rows.Cups[since].Bag))
                continue;
            ref var counted = ref CollectionsMarshal.GetValueRefOrAddDefault(cupsOfBag, rows.Cups[since].Bag, out var known);
            counted = (counted.Cups + i + 1 - since, known ? counted.First : since);
            since = i + 1;
        }

        var countries = new Levels(VocabularyKind.Country, "country", rows.BagReports);
        var processes = new Levels(VocabularyKind.Process, "process", rows.BagReports);
        var roasters = new Levels(VocabularyKind.Roaster, "roaster", rows.BagReports);
        foreach (var bag in rows.Bags)
        {
            if (!cupsOfBag.TryGetValue(bag, out var counted))
                continue;
            var line = rows.LineOfBag(bag.Id);
            countries.Add(bag.Coffee.Countries is [var only] ? only : null, counted.Cups, line);
            processes.Add(bag.Coffee.Process, counted.Cups, line);
            roasters.Add(bag.Coffee.Roaster, counted.Cups, line);
        }

        Judge(countries, rows, line => line, "");
        Judge(processes, rows, line => line, ";/,+&");
        Judge(brewers, rows, rows.LineOfCup, ";/,+&");
        // Names of firms have ampersands and commas of their own.
        SeveralInOne(roasters, rows, line => line, ";/");
    }

    private static void Judge(Levels levels, RowsToCheck rows, Func<int, int> lineOf, string partings)
    {
        Sparse(levels, rows.Cups.Length);
        Nested(levels, lineOf);
        SeveralInOne(levels, rows, lineOf, partings);
    }

    private static void Sparse(Levels levels, int cups)
    {
        var few = levels.Cups.Where(level => level.Value.Cups < Few).ToList();
        if (cups < FewestCups || levels.Cups.Count < 2 || few.Count == 0)
            return;
        var named = string.Join("; ", few.Take(MostNamed).Select(level => FormattableString.Invariant($"{level.Key} {level.Value.Cups}")));
        var silent = levels.Silent == 0 ? "" : FormattableString.Invariant($" {levels.Silent} cups say nothing of it, which is a level of its own.");
        levels.Reports.AboutColumn(Severity.Information, levels.Column, named + (few.Count > MostNamed ? "; …" : ""), new CellFault(Rule.SparseLevel,
            FormattableString.Invariant($"{few.Count} of {levels.Cups.Count} have under {Few} cups.{silent}"), "nothing, if each is a thing of its own"));
    }

    private static void Nested(Levels levels, Func<int, int> lineOf)
    {
        if (levels.Cups.Count > MostLevels)
            return;
        foreach (var (inner, (_, first)) in levels.Cups)
        {
            // The longest other name it begins with, up to a sign that parts words.
            var outer = levels.Cups.Keys.Where(name => inner.Length > name.Length + 1 && inner.StartsWith(name, StringComparison.OrdinalIgnoreCase)
                && !char.IsLetterOrDigit(inner[name.Length])).MaxBy(name => name.Length);
            if (outer is not null)
            {
                levels.Reports.Add(Severity.Information, lineOf(first), null, levels.Reports.HeaderOf(levels.Column), inner, new CellFault(Rule.NestedLevel,
                    $"It begins with '{outer}', which is another name in the column: the one may be part of the other, and each is a level of its own.",
                    "one name, if they are one thing"));
            }
        }
    }

    private static void SeveralInOne(Levels levels, RowsToCheck rows, Func<int, int> lineOf, string partings)
    {
        if (partings.Length == 0 || levels.Cups.Count > MostLevels)
            return;
        foreach (var (name, (_, first)) in levels.Cups)
        {
            if (name.AsSpan().IndexOfAny(partings) is var at && at > 0 && at < name.Length - 1 && !rows.Vocabulary.Knows(levels.Kind, name))
            {
                levels.Reports.Add(Severity.Information, lineOf(first), null, levels.Reports.HeaderOf(levels.Column), name, new CellFault(Rule.SeveralInOne,
                    $"It seems to name several things, parted by '{name[at]}'; it was kept as one name.", "one name a cell"));
            }
        }
    }

    /// <summary>The words of a column: the cups of each, and where it first stands.</summary>
    private sealed class Levels(VocabularyKind kind, string column, FileReports reports)
    {
        public VocabularyKind Kind { get; } = kind;

        public string Column { get; } = column;

        public FileReports Reports { get; } = reports;

        public Dictionary<string, (int Cups, int First)> Cups { get; } = new(StringComparer.Ordinal);

        public int Silent { get; private set; }

        public void Add(string? level, int cups, int place)
        {
            if (level is null)
            {
                Silent += cups;
                return;
            }

            ref var counted = ref CollectionsMarshal.GetValueRefOrAddDefault(Cups, level, out var known);
            counted = (counted.Cups + cups, known ? counted.First : place);
        }
    }
}
