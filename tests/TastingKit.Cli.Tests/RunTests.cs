using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests;

public sealed class RunTests : IDisposable
{
    private const string Hostile = "<script>alert(1)</script><img src=x onerror=alert(2)> %{x} $a$ </figure>";

    private readonly Tastingkit _command = new();

    public void Dispose() => _command.Dispose();

    private void WriteHostileLog()
    {
        _command.Write("year/bags.csv", $"bag_id,coffee\nB1,{Hostile}\n{Hostile},Halo Ridge\n");
        _command.Write("year/tastings.csv", $"tasting_id,bag_id,tasted_at,score,notes\nT1,B1,2025-03-12,7.5,{Hostile}\nT2,B1,2025-03-12,{Hostile},\n");
    }

    [Fact]
    public async Task The_same_log_gives_the_same_bytes_twice()
    {
        WriteHostileLog();
        foreach (var name in new[] { "one", "two" })
        {
            var run = await _command.RunAsync("run", Tastingkit.Notebook("small.ipynb"), "--log", "year", "--out", name + ".html", "--out", name + ".ipynb");
            Assert.True(run.ExitCode == 0, run.Error);
            Assert.Matches("(?s)small.ipynb: cell 1 of 5: #r .*small.ipynb: cell 5 of 5: .*small.ipynb: done\nwrote: ", run.Error);
        }

        Assert.Equal(File.ReadAllBytes(_command.PathOf("one.html")), File.ReadAllBytes(_command.PathOf("two.html")));
        Assert.Equal(File.ReadAllBytes(_command.PathOf("one.ipynb")), File.ReadAllBytes(_command.PathOf("two.ipynb")));
        Assert.Equal(["one.html", "one.ipynb", "two.html", "two.ipynb"], Directory.GetFiles(_command.Folder).Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task An_executed_notebook_holds_the_outputs()
    {
        await _command.RunAsync("run", Tastingkit.Notebook("small.ipynb"), "--log", Tastingkit.SampleData, "--out", "out.ipynb");
        var cells = JsonNode.Parse(await File.ReadAllTextAsync(_command.PathOf("out.ipynb")))!["cells"]!.AsArray();
        Assert.Equal([1, 2, 3, 4, 5], cells.Skip(1).Select(cell => (int)cell!["execution_count"]!));
        Assert.All(cells.Skip(1), cell => Assert.NotEmpty(cell!["outputs"]!.AsArray()));
        Assert.Contains("cups of 71 bags", string.Concat(cells[2]!["outputs"]![0]!["data"]!["text/plain"]!.AsArray().Select(line => (string?)line)), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task Text_of_a_log_is_shown_as_text_wherever_it_stands()
    {
        WriteHostileLog();
        var run = await _command.RunAsync("run", Tastingkit.Notebook("small.ipynb"), "--log", "year", "--out", "page.html");
        Assert.True(run.ExitCode == 0, run.Error);
        var text = await File.ReadAllTextAsync(_command.PathOf("page.html"));
        // The loader and one chart's data are the only script elements.
        Assert.Equal(["<script type=\"application/json\">", "<script>"], Regex.Matches(text, "<script[^>]*>").Select(match => match.Value));
        Assert.DoesNotContain("<img", text, StringComparison.Ordinal);

        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(_command.PathOf("page.html"));
        await page.WaitForChartsAsync();
        Assert.Equal(1, await page.CountAsync("figure[data-state=drawn]"));
        Assert.Equal(Hostile, (string?)await page.EvaluateAsync("document.querySelector('.tk-chart-title').textContent"));
        await page.EvaluateAsync("Plotly.Fx.hover(document.querySelector('.js-plotly-plot'), [{ curveNumber: 0, pointNumber: 0 }])");
        await page.WaitAsync("document.querySelector('.hoverlayer .hovertext')");
        Assert.Contains("<script>alert(1)</script>", (string?)await page.EvaluateAsync("document.querySelector('.hoverlayer').textContent"), StringComparison.Ordinal);
        Assert.Equal(0, await page.CountAsync("img, .hoverlayer a, iframe"));
        Assert.Empty(page.Messages);
        Assert.Empty(page.Requests);
    }

    [Fact]
    public async Task A_notebook_runs_on_several_years_as_one_log()
    {
        foreach (var year in new[] { "2024", "2025" })
        {
            _command.Write($"{year}/bags.csv", $"bag_id,coffee\nB1,Coffee of {year}\n");
            _command.Write($"{year}/tastings.csv", $"tasting_id,bag_id,tasted_at,score\nT1,B1,{year}-03-12,7.5\n");
        }

        var notebook = _command.Write("cups.ipynb", NotebookText.Of(("code", NotebookText.SetUp), ("code", "TastingNotebook.Log.Tastings.Select(cup => cup.Id).Aggregate((a, b) => a + \" and \" + b)")));
        var (exitCode, _, error) = await _command.RunAsync("run", notebook, "--log", "2024", "--log", "2025", "--out", "out.html");
        Assert.True(exitCode == 0, error);
        var page = File.ReadAllText(_command.PathOf("out.html"));
        Assert.Contains("T1 and 2025/T1", page, StringComparison.Ordinal);
        Assert.Contains("from the log 2024 + 2025", page, StringComparison.Ordinal);
    }
}
