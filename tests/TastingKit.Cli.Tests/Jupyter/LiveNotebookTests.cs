using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>Notebooks opened, run, changed and saved in Jupyter by its own buttons, in a browser without a network.</summary>
public sealed class LiveNotebookTests(JupyterHome home) : IClassFixture<JupyterHome>
{
    public static TheoryData<string> Notebooks => [.. JupyterHome.Notebooks];

    [JupyterTheory]
    [MemberData(nameof(Notebooks))]
    public async Task A_notebook_is_run_changed_saved_and_opened_again_with_its_charts(string name)
    {
        using var server = await JupyterServer.StartAsync(home);
        await using var browser = await Browser.StartAsync();
        var tab = await NotebookTab.OpenAsync(browser, server.AddressOf(name));
        await tab.RunAllAsync();
        Assert.Empty(await tab.ErrorsAsync());
        var charts = await ShownCharts.AllDrawnAsync(tab.Page);
        Assert.Equal(await tab.ChartsInOutputsAsync(), charts);
        await tab.KeepPictureAsync($"{Path.GetFileNameWithoutExtension(name)}-run");

        // The reader changes the last cell that draws: it shows what they added, and every chart is drawn as before.
        var cell = await LastCellWithAChartAsync(tab);
        await tab.TypeFirstLineAsync(cell, "display(\"A line of the reader's own.\");");
        Assert.DoesNotContain("A line of the reader's own.", await tab.OutputAsync(cell), StringComparison.Ordinal);
        await tab.RunAsync(cell);
        Assert.StartsWith("A line of the reader's own.", (await tab.OutputAsync(cell)).Trim(), StringComparison.Ordinal);
        Assert.Equal(charts, await ShownCharts.AllDrawnAsync(tab.Page));

        // plotly.js is in the first cell's output, which goes when the cell is run again: what it drew stays, and so does what draws.
        await tab.RunAsync(0);
        await tab.RunAsync(cell);
        Assert.Equal(charts, await ShownCharts.AllDrawnAsync(tab.Page));
        await tab.KeepPictureAsync($"{Path.GetFileNameWithoutExtension(name)}-changed");
        await tab.AddCellAsync();
        await tab.SaveAsync();

        var again = await NotebookTab.OpenAsync(browser, server.AddressOf(name));
        Assert.True((bool)(await again.Page.EvaluateAsync("Jupyter.notebook.trusted"))!);
        Assert.Equal(charts, await ShownCharts.AllDrawnAsync(again.Page));
        Assert.StartsWith("A line of the reader's own.", (await again.OutputAsync(cell)).Trim(), StringComparison.Ordinal);
        await again.KeepPictureAsync($"{Path.GetFileNameWithoutExtension(name)}-opened-again");

        foreach (var page in new[] { tab.Page, again.Page })
        {
            Assert.DoesNotContain(page.Requests, asked => !asked.Contains(server.Address, StringComparison.Ordinal));
            Assert.DoesNotContain(page.Messages, said => said.StartsWith("error", StringComparison.Ordinal) || said.StartsWith("exception", StringComparison.Ordinal));
        }
    }

    [JupyterFact]
    public async Task The_interrupt_button_ends_long_work_and_keeps_what_ran_before()
    {
        home.Write("long.ipynb", ("code", NotebookText.SetUp), ("code", "var kept = 42;"), ("code", "while (true) TastingNotebook.Log.Favourites();"), ("code", "kept"));
        using var server = await JupyterServer.StartAsync(home);
        await using var browser = await Browser.StartAsync();
        var tab = await NotebookTab.OpenAsync(browser, server.AddressOf("long.ipynb"));
        await tab.RunAsync(0);
        Assert.Matches("TastingKit .* is ready", await tab.OutputAsync(0));
        await tab.RunAsync(1);
        await tab.BeginAsync(2);
        // How far it is stands below the cell.
        await tab.Page.WaitAsync("[...document.querySelectorAll('.output')].some(output => /: \\d+\\s%/.test(output.innerText))");
        await tab.KeepPictureAsync("long-running");
        await tab.InterruptAsync();
        await tab.WaitUntilDoneAsync();
        Assert.Contains("Stopped at your request.", await tab.ErrorsAsync(), StringComparison.Ordinal);
        await tab.RunAsync(3);
        Assert.Contains("42", await tab.OutputAsync(3), StringComparison.Ordinal);
        await tab.KeepPictureAsync("long-interrupted");
    }

    [JupyterFact]
    public async Task A_failing_first_cell_stops_the_notebook_with_advice()
    {
        home.Write("failing.ipynb", ("code", NotebookText.FailingSetUp), ("code", "\"ran\""));
        using var server = await JupyterServer.StartAsync(home);
        await using var browser = await Browser.StartAsync();
        var tab = await NotebookTab.OpenAsync(browser, server.AddressOf("failing.ipynb"));
        await tab.RunAllAsync();
        Assert.Contains(NotebookText.FailingSetUpAdvice, await tab.ErrorsAsync(), StringComparison.Ordinal);
        Assert.True(await tab.HasRunAsync(0));
        Assert.False(await tab.HasRunAsync(1));
        Assert.Empty(await tab.OutputAsync(1));
        await tab.KeepPictureAsync("failing-run");
    }

    /// <summary>In a notebook without a chart, the last cell.</summary>
    private static async Task<int> LastCellWithAChartAsync(NotebookTab tab)
    {
        var last = await tab.CodeCellsAsync() - 1;
        for (var cell = last; cell > 0; cell--)
        {
            if (await tab.ChartsOfAsync(cell) > 0)
                return cell;
        }

        return last;
    }
}
