using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

public sealed class ResultsIndexTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("index").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Pages_are_summed_up_in_the_order_of_their_names()
    {
        Page("rest-peaks", 200);
        Page("bag-order", 300, 500);
        ResultsIndex.Write(_folder);
        ResultsIndex.Write(_folder);
        var lines = File.ReadAllLines(Path.Combine(_folder, "results.md"));
        Assert.Equal(
            ["| [bag order](results-bag-order.md) | 2 | 300 to 500 | 2 | 0 | 0 | 0 |", "| [rest peaks](results-rest-peaks.md) | 1 | 200 | 1 | 0 | 0 | 0 |"],
            lines.Where(line => line.StartsWith("| [", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_page_without_cells_is_named()
    {
        File.WriteAllText(Path.Combine(_folder, "results-label.md"), "# Calibration\n");
        Assert.Contains("results-label.md", Assert.Throws<InvalidDataException>(() => ResultsIndex.Write(_folder)).Message, StringComparison.Ordinal);
    }

    private void Page(string name, params int[] years) => File.WriteAllText(
        Path.Combine(_folder, $"results-{name}.md"),
        ResultsPage.Write([.. years.Select((count, i) => Rules.Judge(
            new CalibrationCell($"cell {i}", "A cell.", Match.Strained, 1, CalibrationCells.SmallYear, []),
            [.. Enumerable.Range(0, count).Select(Harmless)]))]));

    private static YearRecord Harmless(int number)
    {
        var year = new YearRecord { Year = number };
        year.Count("an analysis: false alarm", false);
        return year;
    }
}
