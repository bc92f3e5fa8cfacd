using System.Text.Json.Nodes;

namespace TastingKit.Cli.Tests;

/// <summary>What <c>--set</c> sets, where, and what it refuses.</summary>
public sealed class SettingsTests : IDisposable
{
    private const string Parameters =
        "int top = 10;\nvar margin = 0.5;\nbool all = false;\nvar from = new DateOnly(2025, 1, 1);\nvar kind = \"washed\";\nlong? many = null;\nconst int fixedOne = 1;\nvar list = new[] { 1 };";

    private readonly Tastingkit _command = new();

    public SettingsTests() => _command.Write("set.ipynb", NotebookText.Of(
        ("markdown", "# Set"), ("code", "1"), ("code parameters", Parameters), ("code", "$\"{top} {margin} {all} {from:yyyy-MM-dd} {kind} {many}\"")));

    public void Dispose() => _command.Dispose();

    [Fact]
    public async Task Values_of_each_type_reach_the_cells_and_stand_on_the_page()
    {
        var run = await _command.RunAsync(
            "run", "set.ipynb", "--set", "top=-3", "--set", "margin=1e-3", "--set", "all=true", "--set", "from=2024-02-29", "--set", "kind=say \"<b>\\\"", "--set", "many=5000000000",
            "--out", "out.html", "--out", "out.ipynb");
        Assert.True(run.ExitCode == 0, run.Error);
        Assert.Contains("set.ipynb: set: from = 2024-02-29\n", run.Error, StringComparison.Ordinal);
        var cells = JsonNode.Parse(await File.ReadAllTextAsync(_command.PathOf("out.ipynb")))!["cells"]!.AsArray();
        Assert.Equal(5, cells.Count);
        Assert.Equal("injected-parameters", (string?)cells[3]!["metadata"]!["tags"]![0]);
        Assert.Equal("-3 0.001 True 2024-02-29 say \"<b>\\\" 5000000000", (string?)cells[4]!["outputs"]![0]!["data"]!["text/plain"]![0]);

        var page = await File.ReadAllTextAsync(_command.PathOf("out.html"));
        Assert.Contains("<details class=\"tk-code\" open>\n<summary>Set for this run</summary>", page, StringComparison.Ordinal);
        Assert.Contains("top = -3;\nmargin = 0.001d;\nall = true;\nfrom = new DateOnly(2024, 2, 29);\n", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_executed_notebook_can_be_set_again()
    {
        await _command.RunAsync("run", "set.ipynb", "--set", "top=1", "--out", "one.ipynb");
        var run = await _command.RunAsync("run", "one.ipynb", "--set", "top=2", "--out", "two.ipynb");
        Assert.True(run.ExitCode == 0, run.Error);
        var cells = JsonNode.Parse(await File.ReadAllTextAsync(_command.PathOf("two.ipynb")))!["cells"]!.AsArray();
        Assert.StartsWith("2 ", (string?)cells[^1]!["outputs"]![0]!["data"]!["text/plain"]![0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("topp=3", "set.ipynb has no parameter 'topp'. Expected one of top (int), margin (double), all (bool), from (DateOnly), kind (string), many (long).")]
    [InlineData("fixedOne=3", "has no parameter 'fixedOne'")]
    [InlineData("top=half", "'half' is not a whole number, which top is in set.ipynb (int). Expected for example --set top=12.")]
    [InlineData("top=1.5", "'1.5' is not a whole number")]
    [InlineData("margin=1,5", "'1,5' is not a number")]
    [InlineData("from=01.02.2025", "'01.02.2025' is not a day as year-month-day")]
    [InlineData("all=yes", "'yes' is not true or false")]
    [InlineData("list=3", "the type of list in set.ipynb can't be written on a command line")]
    [InlineData("top", "there is no name and value in it")]
    [InlineData("=3", "there is no name and value in it")]
    public async Task What_cannot_be_set_is_refused_before_any_cell_runs(string setting, string reason)
    {
        var run = await _command.RunAsync("run", "set.ipynb", "--set", setting, "--out", "out.html");
        Assert.Equal(2, run.ExitCode);
        Assert.Contains(reason, run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain(": cell ", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_command.PathOf("out.html")));
    }

    [Fact]
    public async Task Without_a_tagged_cell_values_come_after_the_first_one()
    {
        _command.Write("bare.ipynb", NotebookText.Of(("code", "var top = 10;"), ("code", "var late = 3;"), ("code", "$\"{top + late + (other == \"x\" ? 100 : 0)}\"")));
        var run = await _command.RunAsync("run", "bare.ipynb", "--set", "top=20", "--set", "other=x", "--out", "out.ipynb");
        Assert.True(run.ExitCode == 0, run.Error);
        var cells = JsonNode.Parse(await File.ReadAllTextAsync(_command.PathOf("out.ipynb")))!["cells"]!.AsArray();
        Assert.Equal("top = 20;\nvar other = \"x\";", string.Concat(cells[1]!["source"]!.AsArray().Select(line => (string?)line)));
        Assert.Equal("123", (string?)cells[^1]!["outputs"]![0]!["data"]!["text/plain"]![0]);

        var late = await _command.RunAsync("run", "bare.ipynb", "--set", "late=5", "--out", "out2.ipynb");
        Assert.Equal(2, late.ExitCode);
        Assert.Contains("cell 2 of bare.ipynb declares late itself, which would undo the setting. Expected that cell to have the tag 'parameters'.", late.Error, StringComparison.Ordinal);
        var unknown = await _command.RunAsync("run", "bare.ipynb", "--set", "nowhere=5", "--out", "out2.ipynb");
        Assert.Contains("bare.ipynb has no parameter 'nowhere'. Expected one of top (int).", unknown.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_error_after_values_says_how_cells_are_counted()
    {
        _command.Write("bad.ipynb", NotebookText.Of(("code parameters", "var top = 10;"), ("code", "var x = 1 / (top - top);")));
        var run = await _command.RunAsync("run", "bad.ipynb", "--set", "top=20", "--out", "out.html");
        Assert.Equal(3, run.ExitCode);
        Assert.Contains("bad.ipynb: failed: cell 3 (counting the values set for this run), line 1: ", run.Error, StringComparison.Ordinal);
    }
}
