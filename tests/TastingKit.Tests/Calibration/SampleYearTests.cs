using System.Text.Json;
using TastingKit.Calibration.SampleData;

namespace TastingKit.Tests.Calibration;

public sealed class SampleYearTests : IDisposable
{
    private static readonly string Committed = Path.Combine(Root(), "sample-data");
    private readonly string _folder = Directory.CreateTempSubdirectory("sample-year").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void The_sample_data_are_what_the_simulator_writes_to_the_byte()
    {
        SampleYear.Write(_folder);
        string[] Names(string folder) => [.. Directory.GetFiles(folder).Select(file => Path.GetFileName(file)!).Order(StringComparer.Ordinal)];
        Assert.Equal(Names(Committed), Names(_folder));
        Assert.All(Names(Committed), name => Assert.True(
            File.ReadAllBytes(Path.Combine(Committed, name)).AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(_folder, name))),
            $"sample-data/{name} is not what the simulator writes: write it again with the command in sample-data/README.md."));
    }

    [Fact]
    public void Reading_reports_each_row_that_is_wrong_on_purpose_and_no_sound_one()
    {
        var log = TastingLog.Read(Committed);
        using var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(Committed, "truth.json")));
        var planted = truth.RootElement.GetProperty("dirty_rows").EnumerateArray().Select(row => (
            File: row.GetProperty("file").GetString(), Line: row.GetProperty("line").GetInt32(), Column: row.GetProperty("column").GetString(),
            Rule: row.GetProperty("rule").GetString(), Severity: row.GetProperty("severity").GetString())).Order().ToArray();
        Assert.Equal(9, planted.Length);
        var reports = log.Problems.Where(problem => problem.Severity > Severity.Information).ToArray();
        Assert.All(planted, row => Assert.Contains(reports, report =>
            row == (report.File, report.Line, report.Column, report.Rule, report.Severity.ToString())));
        Assert.Equal(planted.Select(row => (row.File, row.Line)), reports.Select(report => ((string?)report.File, report.Line)).Distinct().Order());
    }

    [Fact]
    public void The_sound_rows_say_what_was_simulated_whatever_the_hand_they_are_written_in()
    {
        var simulated = SimulatedYear.Create(SampleYear.Settings, SampleYear.Seed).Log;
        var read = TastingLog.Read(Committed).Tastings.ToDictionary(cup => cup.Id);
        Assert.Equal(480, simulated.Tastings.Count);
        Assert.All(simulated.Tastings, cup =>
        {
            var found = read[cup.Id];
            Assert.Equal((cup.Bag.Id, cup.TastedAt, cup.Purpose, cup.Brewer, cup.RecipeFrom), (found.Bag.Id, found.TastedAt, found.Purpose, found.Brewer, found.RecipeFrom));
            Assert.Equal((cup.Score, cup.RestDays, cup.BrewTime, cup.DoseGrams), (found.Score, found.RestDays, found.BrewTime, found.DoseGrams));
            Assert.True(Math.Abs(cup.WaterCelsius!.Value - found.WaterCelsius!.Value) < 0.3);
            Assert.Equal(cup.Notes, found.Notes, StringComparer.OrdinalIgnoreCase);
            Assert.Equal(cup.Attributes.OrderBy(value => value.Key.Name), found.Attributes.OrderBy(value => value.Key.Name));
        });
    }

    [Fact]
    public void The_truth_in_the_file_is_that_of_the_simulation()
    {
        var truth = SimulatedYear.Create(SampleYear.Settings, SampleYear.Seed).Truth;
        using var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(Committed, "truth.json")));
        var coffees = json.RootElement.GetProperty("coffees").EnumerateArray().ToArray();
        Assert.Equal(truth.Coffees.Count, coffees.Length);
        Assert.All(coffees, coffee => Assert.Equal(
            truth.ExpectedScore(coffee.GetProperty("coffee_id").GetString()!, "cone dripper", SimulatedMethod.House, 20), coffee.GetProperty("expected_score").GetDouble(), 4));
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "TastingKit.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds TastingKit.sln.");
    }
}
