using System.Globalization;
using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>The rows of a log, read and accepted, with the lines they stand on: what the rules of plausibility look at.</summary>
internal sealed record RowsToCheck
{
    /// <summary>The bags, in the order of their file.</summary>
    public required IReadOnlyList<Bag> Bags { get; init; }

    /// <summary>The line of a bag, by its identifier.</summary>
    public required Func<string, int> LineOfBag { get; init; }

    /// <summary>The reports on the bags' file.</summary>
    public required FileReports BagReports { get; init; }

    /// <summary>The cups, in the order of their file.</summary>
    public required Tasting[] Cups { get; init; }

    /// <summary>What the row of each cup says, its identifier left out (<see cref="RowReports.Content"/>).</summary>
    public required List<ulong> Contents { get; init; }

    /// <summary>The line of a cup, by its place among the cups.</summary>
    public required Func<int, int> LineOfCup { get; init; }

    /// <summary>The reports on the cups' file.</summary>
    public required FileReports CupReports { get; init; }

    /// <summary>The scored columns of the cups' file, the overall score among them, each with its scale.</summary>
    public required IReadOnlyList<Scale> ScoredColumns { get; init; }

    /// <summary>The words that the vocabulary knows.</summary>
    public required Vocabulary Vocabulary { get; init; }

    /// <summary>The same rows, with reports gathered apart for one check.</summary>
    public RowsToCheck Apart()
    {
        var cups = CupReports.Apart();
        return this with { CupReports = cups, BagReports = BagReports == CupReports ? cups : BagReports.Apart() };
    }

    /// <summary>Files what a check gathered apart.</summary>
    public void Join(RowsToCheck apart)
    {
        CupReports.Join(apart.CupReports);
        if (BagReports != CupReports)
            BagReports.Join(apart.BagReports);
    }

    /// <summary>Files a report on a cup.</summary>
    public void OnCup(int index, Severity severity, string column, string found, CellFault fault) =>
        CupReports.Add(severity, LineOfCup(index), Cups[index].Id, CupReports.HeaderOf(column), found, fault);

    /// <summary>Files a report on a bag.</summary>
    public void OnBag(Bag bag, Severity severity, string column, string found, CellFault fault) =>
        BagReports.Add(severity, LineOfBag(bag.Id), bag.Id, BagReports.HeaderOf(column), found, fault);

    /// <summary>A day as reports write it.</summary>
    public static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A number as reports write it.</summary>
    public static string Number(double value) => value.ToString(CultureInfo.InvariantCulture);
}
