using TastingKit.Charts;
using TastingKit.Tests.Browsing;

namespace TastingKit.Pages.Tests;

public sealed class NotebookPageInBrowserTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-pages-");

    public void Dispose() => _folder.Delete(recursive: true);

    [BrowserFact]
    public async Task Charts_draw_without_a_network_or_a_word_on_the_console()
    {
        var chart = NotebookPageTests.SmallChart();
        var path = Save(NotebookPage.Write(
            Notebooks.Of(("markdown", "# A"), ("code", "1"), ("code", "2")),
            Notebooks.Outputs([Notebooks.Html(chart.ToHtml()), Notebooks.Html(chart.ToHtml())], [Notebooks.Html(Chart.Nothing("Why", "No cups.").ToHtml())])));
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path);
        await page.WaitForChartsAsync();

        Assert.Equal(2, await page.CountAsync("figure[data-state=drawn] .main-svg .point:nth-child(3)"));
        Assert.Empty(page.Messages);
        Assert.Empty(page.Requests);
    }

    [BrowserFact]
    public async Task A_chart_fits_a_narrow_window_and_follows_a_wider_one()
    {
        var path = Save(NotebookPage.Write(Notebooks.Of(("code", "1")), Notebooks.Outputs([Notebooks.Html(NotebookPageTests.SmallChart().ToHtml())])));
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path, width: 390);
        await page.WaitForChartsAsync();
        Assert.True((bool)(await page.EvaluateAsync("document.documentElement.scrollWidth <= 390"))!);

        await page.ResizeAsync(1000, 900);
        await page.WaitAsync("document.querySelector('.main-svg').clientWidth > 800");
        await page.ResizeAsync(390, 900);
        await page.WaitAsync("document.documentElement.scrollWidth <= 390 && document.querySelector('.main-svg').clientWidth < 390");
    }

    [BrowserFact]
    public async Task Dark_pages_have_light_charts_text()
    {
        var path = Save(NotebookPage.Write(Notebooks.Of(("code", "1")), Notebooks.Outputs([Notebooks.Html(NotebookPageTests.SmallChart().ToHtml())])));
        await using var browser = await Browser.StartAsync();
        const string Ink = "getComputedStyle(document.querySelector('.xtick text')).fill";
        var light = await browser.OpenAsync(path);
        await light.WaitForChartsAsync();
        Assert.Equal("rgb(29, 33, 38)", (string?)await light.EvaluateAsync(Ink));
        var dark = await browser.OpenAsync(path, dark: true);
        await dark.WaitForChartsAsync();
        Assert.Equal("rgb(231, 234, 238)", (string?)await dark.EvaluateAsync(Ink));
    }

    [BrowserFact]
    public async Task A_chart_that_cannot_be_drawn_stays_in_words()
    {
        var html = NotebookPageTests.SmallChart().ToHtml().Replace("\"data\":[", "\"data\":[[", StringComparison.Ordinal);
        var path = Save(NotebookPage.Write(Notebooks.Of(("code", "1")), Notebooks.Outputs([Notebooks.Html(html)])));
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path);
        await page.WaitForChartsAsync();
        Assert.Equal("Three dots that rise.", (string?)await page.EvaluateAsync("document.querySelector('figure[data-state=failed] .tk-chart-plot').innerText"));
    }

    [BrowserFact]
    public async Task A_long_table_is_turned_page_by_page_or_shown_whole()
    {
        var path = Save(NotebookPage.Write(Notebooks.Of(("code", "1")), Notebooks.Outputs([Notebooks.Html(FortyCups)])));
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path);
        Assert.Equal("1 to 12", await SeenAsync(page));
        await page.EvaluateAsync("document.querySelector('.tk-turn button').click()");
        Assert.Equal("1 to 12", await SeenAsync(page));
        foreach (var expected in new[] { "13 to 24", "25 to 36", "37 to 40", "37 to 40" })
        {
            await page.EvaluateAsync("document.querySelectorAll('.tk-turn button')[1].click()");
            Assert.Equal(expected, await SeenAsync(page));
        }

        Assert.Equal("Rows 37 to 40 of 40", (string?)await page.EvaluateAsync("document.querySelector('.tk-turn span').textContent"));
        Assert.Equal("Earlier rows", (string?)await page.EvaluateAsync("document.activeElement.textContent"));
        await page.EvaluateAsync("document.querySelectorAll('.tk-turn button')[2].click()");
        Assert.Equal("1 to 40", await SeenAsync(page));
        await page.EvaluateAsync("document.querySelectorAll('.tk-turn button')[2].click()");
        Assert.Equal("37 to 40", await SeenAsync(page));
        Assert.Empty(page.Messages);
    }

    [BrowserFact]
    public async Task Without_scripts_a_long_table_shows_all_its_rows_when_asked()
    {
        var path = Save($"<!DOCTYPE html><style>{Stylesheet.Css}</style>{FortyCups}");
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path);
        Assert.Equal("1 to 12", await SeenAsync(page));
        await page.EvaluateAsync("document.querySelector('.tk-all input').click()");
        Assert.Equal("1 to 40", await SeenAsync(page));
    }

    private static string FortyCups { get; } = HtmlRenderer.Render(new ResultLayout([new LayoutBlock.Table(new ResultTable(
        "Cups", [new("what", "Cup", ColumnKind.Text)], [.. Enumerable.Range(1, 40).Select(i => (IReadOnlyList<TableCell>)[new TableCell.Text($"{i}")])]))]));

    private static async Task<string?> SeenAsync(BrowserPage page) => (string?)await page.EvaluateAsync(
        "(seen => seen[0].innerText + ' to ' + seen[seen.length - 1].innerText + (seen.every((row, i) => +row.innerText === +seen[0].innerText + i) ? '' : ' with gaps'))([...document.querySelectorAll('tbody tr')].filter(row => row.offsetHeight > 0))");

    private string Save(string page)
    {
        var path = Path.Combine(_folder.FullName, "page.html");
        File.WriteAllText(path, page);
        return path;
    }
}
