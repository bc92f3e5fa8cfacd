using System.Net.NetworkInformation;
using System.Text.RegularExpressions;
using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>Notebooks run by <c>jupyter nbconvert --execute</c> with the kit's kernel, and the pages that it makes of them.</summary>
public sealed partial class NbconvertTests(JupyterHome home) : IClassFixture<JupyterHome>
{
    public static TheoryData<string> Notebooks => [.. JupyterHome.Notebooks];

    [JupyterTheory]
    [MemberData(nameof(Notebooks))]
    public async Task A_page_made_by_nbconvert_draws_its_charts_offline(string name)
    {
        var converted = await home.ConvertAsync(name);
        Assert.True(converted.ExitCode == 0, converted.Error);
        var path = Path.Combine(home.Folder, Path.ChangeExtension(name, ".html"));
        var html = await File.ReadAllTextAsync(path);
        Assert.Empty(PrivateAddresses(html));

        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path);
        Assert.Equal(Figures().Count(html), await ShownCharts.AllDrawnAsync(page));
        Assert.InRange(await page.CountAsync("section.tk, figure.tk-chart"), 1, int.MaxValue);
        Assert.Empty(page.Messages);
        // nbconvert itself may link to libraries among the system's files.
        Assert.DoesNotContain(page.Requests, asked => !asked.StartsWith("file:///", StringComparison.Ordinal));
    }

    [JupyterFact]
    public async Task A_failing_first_cell_stops_it_with_advice_and_without_a_page()
    {
        home.Write("failing.ipynb", ("code", NotebookText.FailingSetUp), ("code", "Environment.Exit(1)"));
        var converted = await home.ConvertAsync("failing.ipynb");
        Assert.Equal(1, converted.ExitCode);
        Assert.Contains(NotebookText.FailingSetUpAdvice, converted.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(home.Folder, "failing.html")));
    }

    /// <summary>What tells of the machine that made the page: its own addresses, and any of a private network.</summary>
    private static IEnumerable<string> PrivateAddresses(string html)
    {
        var own = NetworkInterface.GetAllNetworkInterfaces().SelectMany(network => network.GetIPProperties().UnicastAddresses)
            .Select(address => address.Address.ToString()).Where(address => address.Length > "::1".Length && html.Contains(address, StringComparison.Ordinal));
        return own.Concat(PrivateAddress().Matches(html).Select(match => match.Value));
    }

    [GeneratedRegex(@"(?<![\d.])(?:10\.\d+|127\.\d+|192\.168|172\.(?:1[6-9]|2\d|3[01])|169\.254)\.\d+\.\d+(?![\d.])|localhost")]
    private static partial Regex PrivateAddress();

    [GeneratedRegex("<figure class=\"tk tk-chart")]
    private static partial Regex Figures();
}
