using System.Globalization;
using System.Text;
using TastingKit.Statistics;

namespace TastingKit.Calibration.SampleData;

/// <summary>The log that comes with the kit: a year of an invented reviewer, written as a person writes, with its truth beside it.</summary>
public static class SampleYear
{
    /// <summary>The seed of the year: one with three coffees or more of every country, and every process well met. Nothing else was looked at.</summary>
    public const ulong Seed = 231;

    /// <summary>What the year is simulated from: the defaults, with a scale that softens and a kettle that was replaced and changed nothing.</summary>
    public static SimulationSettings Settings { get; } = new()
    {
        Taster = new SimulatedTaster { DriftPerYear = 0.35 },
        Schedule = new SimulatedSchedule
        {
            Changes = [new SimulatedChange(new DateOnly(2025, 5, 12), "kettle", "stove-top kettle", "electric kettle", 0)],
        },
    };

    /// <summary>Writes the sample log, its truth and its README into a folder.</summary>
    /// <param name="folder">The folder; made if missing. Files of the same names are replaced.</param>
    public static void Write(string folder)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        Directory.CreateDirectory(folder);
        var year = SimulatedYear.Create(Settings, Seed);
        year.Log.Write(folder, overwrite: true);

        var bags = SheetFile.Open(Path.Combine(folder, "bags.csv"));
        var tastings = SheetFile.Open(Path.Combine(folder, "tastings.csv"));
        HandWriting.Apply(tastings, new RandomStream(Seed).Split(100));
        var faults = PlantedFaults.Apply(bags, tastings);
        bags.Save();
        tastings.Save();
        File.WriteAllText(Path.Combine(folder, "truth.json"), SampleTruth.Write(year.Truth, faults));
        File.WriteAllText(Path.Combine(folder, "README.md"), Readme(year.Log, faults));
    }

    private static string Readme(TastingLog log, IReadOnlyList<PlantedFault> faults)
    {
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # A sample year

            A year of an invented reviewer: {log.Bags.Count} bags, {log.Coffees.Count} coffees, {log.Tastings.Count} tastings, from January to December {Settings.Year}.
            Roasters, farms and coffees are made up; anything real of the same name is chance. It is written as people write:
            temperatures in either unit, brew times in several forms, cells left blank.

            The year was simulated, and `truth.json` says from what: how good each coffee is, what brewers, recipes and rest do, how far the
            scale drifts. No analysis reads it; it is there so that anybody can hold an answer against it.

            These files are made by `dotnet run -c Release --project tests/TastingKit.Calibration -- sample-data sample-data`, and a test
            makes them again and compares every byte. To change them, change what makes them.

            ## Rows that are wrong on purpose

            `tastingkit check sample-data` must report each of these, and nothing sound as wrong. Each is a copy of the row above it with one
            fault, so that those kept are reported as `near-duplicate` too.

            | File | Line | Column | What is wrong | Rule | Row |
            |---|---:|---|---|---|---|

            """);
        foreach (var fault in faults)
            page.Append(CultureInfo.InvariantCulture, $"| {fault.File} | {fault.Line} | {fault.Column} | {fault.Trait} | {fault.Rule} | {(fault.Severity == Severity.Rejected ? "rejected" : "kept, doubtful")} |\n");
        return page.ToString();
    }
}
