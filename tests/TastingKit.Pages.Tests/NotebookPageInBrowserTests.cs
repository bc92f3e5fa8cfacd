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
    public async Task A_long_table_shows_all_its_rows_when_asked()
    {
        var table = new ResultTable(
            "Cups", [new("what", "Cup", ColumnKind.Text)], [.. Enumerable.Range(1, 40).Select(i => (IReadOnlyList<TableCell>)[new TableCell.Text($"cup {i}")])]);
        var path = Save(NotebookPage.Write(Notebooks.Of(("code", "1")), Notebooks.Outputs([Notebooks.Html(HtmlRenderer.Render(new ResultLayout([new LayoutBlock.Table(table)])))])));
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path);
        const string Seen = "[...document.querySelectorAll('tbody tr')].filter(row => row.offsetHeight > 0).length";
        Assert.Equal(12, (int)(await page.EvaluateAsync(Seen))!);
        await page.EvaluateAsync("document.querySelector('.tk-all input').click()");
        Assert.Equal(40, (int)(await page.EvaluateAsync(Seen))!);
    }

    private string Save(string page)
    {
        var path = Path.Combine(_folder.FullName, "page.html");
        File.WriteAllText(path, page);
        return path;
    }
}
