using TastingKit.Tests.Browsing;
using TastingKit.Tests.Hostility;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>
/// A log of hostile texts shown in every way that a cell has, in live Jupyter and on the page that nbconvert makes: nothing runs,
/// nothing is asked for, and every text can be read.
/// </summary>
public sealed class HostileTextsInJupyterTests : IClassFixture<JupyterHome>
{
    private const string Notebook = "hostile.ipynb";

    /// <summary>Without brackets, stars and question marks: nbconvert reads those of a path as a pattern.</summary>
    private const string NamedNotebook = "a <img src=x onerror=window.ran=1> ' onfocus='window.ran=1 {{7*7}} $\\frac{1}{2}$ & &lt;b&gt; %3Cb%3E \u202egol \u05e7\u05e4\u05d4.ipynb";

    private readonly JupyterHome _home;

    public HostileTextsInJupyterTests(JupyterHome home)
    {
        _home = home;
        var folder = Directory.CreateDirectory(Path.Combine(home.Folder, "..", "hostile"));
        HostileLog.Write(folder.FullName, HostileTexts.All, coffees: 1);
        home.Write(
            Notebook,
            ("code", NotebookText.SetUp),
            ("code", "TastingNotebook.LogFolder = \"../hostile\";\nvar log = TastingNotebook.Log;\nlog"),
            ("code", "log.Problems"),
            ("code", "var favourites = log.Favourites();\nfavourites"),
            ("code", "favourites.By(Factor.Process)"),
            ("code", "favourites.ToDataFrame()"),
            ("code", "log.CalendarCourse()"),
            ("code", "var logged = log.Logged();\nlogged"),
            ("code", "logged.NotesChart()"),
            ("code", "foreach (var coffee in log.Coffees)\n    Console.WriteLine(coffee.Name);"),
            ("code", "foreach (var coffee in log.Coffees)\n    Console.Error.WriteLine(coffee.Name);"),
            ("code", "foreach (var coffee in log.Coffees)\n    display(coffee.Name);"),
            ("code", "log.Coffees.Select(coffee => coffee.Name).ToArray()"),
            ("code", "throw new InvalidOperationException(string.Join(\"\\n\", log.Coffees.Select(coffee => coffee.Name)));"));
        home.Write(NamedNotebook, ("code", NotebookText.SetUp), ("code", "TastingNotebook.LogFolder = \"../sample-data\";\nTastingNotebook.Log.Logged().Chart()"));
    }

    [JupyterFact]
    public Task A_notebook_of_a_hostile_name_becomes_a_page_of_nbconvert() => HoldsConvertedAsync("./" + NamedNotebook, IsOnlyANameAsync);

    [JupyterFact]
    public Task A_notebook_of_a_hostile_name_runs_in_live_Jupyter() => HoldsLiveAsync(NamedNotebook, IsOnlyANameAsync, "hostile-name");

    [JupyterFact]
    public Task On_a_page_of_nbconvert_they_are_text() => HoldsConvertedAsync(Notebook, AreTextAsync, "--allow-errors");

    [JupyterFact]
    public Task In_live_Jupyter_they_are_text() => HoldsLiveAsync(Notebook, AreTextAsync, "hostile");

    private async Task HoldsConvertedAsync(string notebook, Func<BrowserPage, Task> holds, params string[] options)
    {
        var converted = await _home.ConvertAsync(notebook, options);
        Assert.True(converted.ExitCode == 0, converted.Error);
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(Path.Combine(_home.Folder, Path.ChangeExtension(notebook, ".html")));
        await holds(page);
        Assert.Empty(page.Messages);
        Assert.DoesNotContain(page.Requests, asked => !asked.StartsWith("file:///usr/share/javascript/", StringComparison.Ordinal));
    }

    private async Task HoldsLiveAsync(string notebook, Func<BrowserPage, Task> holds, string picture)
    {
        using var server = await JupyterServer.StartAsync(_home);
        await using var browser = await Browser.StartAsync();
        var tab = await NotebookTab.OpenAsync(browser, server.AddressOf(Uri.EscapeDataString(notebook)));
        await tab.RunAllAsync();
        await holds(tab.Page);
        await tab.KeepPictureAsync(picture);
        Assert.DoesNotContain(tab.Page.Requests, asked => !asked.Contains(server.Address, StringComparison.Ordinal));
    }

    private static async Task IsOnlyANameAsync(BrowserPage page)
    {
        Assert.Equal(1, await ShownCharts.AllDrawnAsync(page));
        Assert.Equal("undefined", (string?)await page.EvaluateAsync("typeof window.ran"));
        Assert.Equal(0, await page.CountAsync("[onerror], [onfocus]"));
        Assert.True(HostileText.IsSeenIn((string)(await page.EvaluateAsync("document.title"))!, Path.GetFileNameWithoutExtension(NamedNotebook)));
    }

    private static async Task AreTextAsync(BrowserPage page)
    {
        Assert.InRange(await ShownCharts.AllDrawnAsync(page), 4, int.MaxValue);
        Assert.Equal("undefined", (string?)await page.EvaluateAsync("typeof window.ran"));
        Assert.Equal(0, await page.CountAsync(".tk img, .tk iframe, .tk object, .tk link, .tk base, .tk meta, .tk math, .tk h1, [onerror], [onload], [onmouseover], [onfocus], [onclick*=ran], a[href^='javascript:']"));
        var tables = (string)(await page.EvaluateAsync("[...document.querySelectorAll('section.tk')].map(part => part.textContent).join('\\n')"))!;
        Assert.Empty(HostileTexts.All.Where(text => !HostileText.IsSeenIn(tables, text.Value + " coffee0")).Select(text => text.Name));
    }
}
