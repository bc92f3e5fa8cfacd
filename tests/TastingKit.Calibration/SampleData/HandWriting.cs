using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit.Calibration.SampleData;

/// <summary>
/// Writes a log's cells as a person does: temperatures in either unit, times in any form, notes with capitals, things left
/// blank or remarked on. Nothing of it is wrong, and what is scored stays.
/// </summary>
internal static class HandWriting
{
    private static readonly string[] Remarks =
    [
        "kettle was slow", "half asleep", "neighbour drilling", "second cup while talking", "paper rinsed twice", "a bit of a rush",
        "spice cupboard open", "new batch of filters", "cup went cold", "better than I remember",
    ];

    public static void Apply(SheetFile tastings, RandomStream random)
    {
        int temperature = tastings.Column("water_temp"), time = tastings.Column("brew_time"), notes = tastings.Column("notes");
        int purpose = tastings.Column("purpose"), dose = tastings.Column("dose_g"), remark = tastings.Column("remark"), brewer = tastings.Column("brewer");
        foreach (var row in tastings.Rows)
        {
            if (random.NextInt32(9) == 0 && Celsius(row[temperature]) is { } celsius)
                row[temperature] = Invariant(Math.Round(celsius * 1.8 + 32)) + "F";
            if (row[brewer].Length > 0 && random.NextInt32(5) is var form && form < 3)
                row[time] = Rewritten(row[time], form);
            if (random.NextInt32(6) == 0 && row[notes].Length > 0)
                row[notes] = char.ToUpperInvariant(row[notes][0]) + row[notes][1..].Replace("; ", ";", StringComparison.Ordinal);
            if (row[purpose] == "verdict" && random.NextInt32(3) > 0)
                row[purpose] = "";
            if (random.NextInt32(40) == 0 && row[dose].Length > 0)
                row[dose] += " g";
            if (random.NextInt32(14) == 0)
                row[remark] = Remarks[random.NextInt32(Remarks.Length)];
        }
    }

    private static double? Celsius(string cell) =>
        cell.EndsWith('C') && double.TryParse(cell[..^1], CultureInfo.InvariantCulture, out var celsius) ? celsius : null;

    /// <summary>A time such as 3:05 in one of the other ways it is written.</summary>
    private static string Rewritten(string written, int form)
    {
        if (!TimeSpan.TryParseExact(written, @"m\:ss", CultureInfo.InvariantCulture, out var time))
            return written;
        return form switch
        {
            0 => Invariant(time.TotalSeconds),
            1 => Invariant(time.TotalSeconds) + "s",
            _ => $"{Invariant(time.Minutes)}m{Invariant(time.Seconds)}s",
        };
    }

    private static string Invariant(double number) => number.ToString(CultureInfo.InvariantCulture);
}
