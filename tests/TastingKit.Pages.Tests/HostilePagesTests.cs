using System.Globalization;
using System.Text;
using Markdig;
using TastingKit.Charts;
using TastingKit.Tests.Browsing;
using TastingKit.Tests.Hostility;
using Xunit.Abstractions;

namespace TastingKit.Pages.Tests;

/// <summary>
/// Pages about logs that hold a hostile text in every place: opened in a browser, each text is read there as it is, nothing runs,
/// and nothing is asked for.
/// </summary>
public sealed class HostilePagesTests(ITestOutputHelper output) : IDisposable
{
    private const int TextsOnAPage = 8;

    /// <summary>The place that no result shows, since it is nobody else's business; a report on its cell may quote it.</summary>
    private const string Private = "remark";

    /// <summary>The place that only charts show.</summary>
    private const string InCharts = "change";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-hostile-");

    public void Dispose() => _folder.Delete(recursive: true);

    [BrowserFact]
    public async Task Every_text_in_every_place_is_read_and_not_obeyed()
    {
        var (tried, failed) = (0, new List<string>());
        await using var browser = await Browser.StartAsync();
        foreach (var texts in HostileTexts.All.Chunk(TextsOnAPage))
        {
            var logs = texts.Select(LogOf).ToArray();
            var path = Path.Combine(_folder.FullName, "page.html");
            await File.WriteAllBytesAsync(path, Encoding.UTF8.GetBytes(PageOf(texts, logs)));
            var page = await browser.OpenAsync(path, width: 390);
            await page.WaitForChartsAsync();
            var sections = (await page.EvaluateAsync("[...document.querySelectorAll('.tk-prose')].map(start => { let text = ''; for (let next = start; next && (next === start || !next.matches('.tk-prose')); next = next.nextElementSibling) { const read = next.cloneNode(true); read.querySelectorAll('script').forEach(data => data.remove()); text += ' ' + read.textContent; } return text; })"))!.AsArray().Select(text => (string)text!).ToArray();
            Assert.Equal(texts.Length, sections.Length);
            for (var i = 0; i < texts.Length; i++)
            {
                foreach (var place in HostileLog.Places.Except([Private, InCharts]))
                {
                    foreach (var held in HeldTexts.Of(logs[i], place))
                        Try(sections[i], held, $"{texts[i].Name}, {place}");
                }

                Try(sections[i], texts[i].Value, $"{texts[i].Name}, title");
            }

            Assert.Empty(page.Messages);
            Assert.Empty(page.Requests);
            Assert.Equal(0, await page.CountAsync("main script:not([type='application/json']), main img, main iframe, main object, main style, main link, main math, main base, .tk-output a, main meta, svg image, svg a"));
            Assert.True((bool)(await page.EvaluateAsync("window.ran === undefined && document.documentElement.scrollWidth <= innerWidth"))!);
        }

        output.WriteLine($"{HostileTexts.All.Count} texts in {HostileLog.Places.Count - 1} places: {tried - failed.Count} of {tried} shown as text.");
        Assert.True(failed.Count == 0, string.Join("\n", failed));

        void Try(string shown, string held, string what)
        {
            tried++;
            if (!HostileText.IsSeenIn(shown, held) || shown.EnumerateRunes().Any(HostileText.IsObeyed))
                failed.Add(what);
        }
    }

    [BrowserFact]
    public async Task What_a_mark_says_on_a_phone_is_text()
    {
        var (said, failed) = (new List<string>(), new List<string>());
        await using var browser = await Browser.StartAsync();
        foreach (var texts in HostileTexts.All.Chunk(TextsOnAPage))
        {
            var logs = texts.Select(LogOf).ToArray();
            var path = Path.Combine(_folder.FullName, "charts.html");
            await File.WriteAllBytesAsync(path, Encoding.UTF8.GetBytes(ChartsOf(logs)));
            var page = await browser.OpenAsync(path, width: 390);
            await page.WaitForChartsAsync();
            // A log that can't answer has no chart.
            var headings = (await page.EvaluateAsync("[...document.querySelectorAll('figure[data-state=drawn]')].map(figure => [...document.querySelectorAll('.tk-prose')].filter(prose => prose.compareDocumentPosition(figure) & Node.DOCUMENT_POSITION_FOLLOWING).at(-1).textContent.trim())"))!.AsArray();
            for (var chart = 0; chart < headings.Count; chart++)
            {
                var heading = ((string)headings[chart]!).Split(' ');
                var (text, place) = (int.Parse(heading[0], CultureInfo.InvariantCulture), heading[1]);
                await ChartMarks.PointAtAsync(page, chart, mark: 0);
                var shown = await SaidAsync(page, chart);
                said.Add(place);
                if (shown.EnumerateRunes().Any(HostileText.IsObeyed) || !HeldTexts.Of(logs[text], place).Any(held => IsSaid(shown, held, place)))
                    failed.Add($"{texts[text].Name}, {place}: '{shown}'");
            }

            Assert.Equal(0, await page.CountAsync(".hoverlayer :is(a, image, script, foreignObject)"));
            Assert.Empty(page.Messages);
            Assert.Empty(page.Requests);
            Assert.True((bool)(await page.EvaluateAsync("window.ran === undefined"))!);
        }

        foreach (var place in said.CountBy(place => place))
            output.WriteLine($"{place.Key}: {place.Value} marks pointed at");
        output.WriteLine($"{said.Count - failed.Count} of {said.Count} marks say their text as it is.");
        Assert.Equal(5, said.Distinct().Count());
        Assert.True(failed.Count == 0, string.Join("\n", failed));
    }

    [BrowserFact]
    public async Task A_site_names_every_notebook_as_it_is()
    {
        var texts = HostileTexts.All.Where(text => HostileText.Ink(text.Value).Length > 0).ToArray();
        var entries = texts.SelectMany(text => new SiteEntry[] { new SiteEntry.Page(text.Value[..Math.Min(60, text.Value.Length)] + ".html", text.Value, text.Value), new SiteEntry.Failed(text.Value, text.Value) });
        var path = Path.Combine(_folder.FullName, "index.html");
        await File.WriteAllTextAsync(path, SiteIndex.Write([.. entries], string.Concat(texts.Where(text => text.Value.Length < 40).Select(text => text.Value))));
        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(path, width: 390);
        var items = (await page.EvaluateAsync("[...document.querySelectorAll('.tk-index > li')].map(item => [...item.children].map(part => part.textContent))"))!.AsArray();
        Assert.Equal(2 * texts.Length, items.Count);
        for (var i = 0; i < items.Count; i++)
            Assert.All(items[i]!.AsArray(), part => Assert.True(HostileText.IsSeenIn((string)part!, texts[i / 2].Value) && !((string)part!).EnumerateRunes().Any(HostileText.IsObeyed), texts[i / 2].Name));
        Assert.Equal(0, await page.CountAsync("main a:not([href^='./'])"));
        Assert.Empty(page.Messages);
        Assert.Empty(page.Requests);
        Assert.True((bool)(await page.EvaluateAsync("window.ran === undefined && document.documentElement.scrollWidth <= innerWidth"))!);
        output.WriteLine($"{texts.Length} texts in four places of a site's index shown as text.");
    }

    [Fact]
    public void Markdown_that_others_render_shows_the_text_and_no_markup()
    {
        var pipeline = new MarkdownPipelineBuilder().UseAdvancedExtensions().Build();
        var (tried, failed) = (0, new List<string>());
        foreach (var text in HostileTexts.All)
        {
            var layout = new ResultLayout(
            [
                new LayoutBlock.Lead(text.Value), new LayoutBlock.Paragraph(text.Value), new LayoutBlock.Cautions([new Caution("c", text.Value)]),
                new LayoutBlock.Table(new ResultTable(text.Value, [new("what", text.Value, ColumnKind.Text)], [[new TableCell.Text(text.Value)]])),
            ]);
            var html = Markdown.ToHtml(MarkdownRenderer.Render(layout), pipeline);
            var elements = System.Text.RegularExpressions.Regex.Matches(html, "<([a-z0-9]+)").Select(m => m.Groups[1].Value).Distinct();
            tried++;
            if (elements.Except(["p", "strong", "blockquote", "table", "thead", "tbody", "tr", "th", "td", "em", "br"]).ToArray() is { Length: > 0 } foreign)
                failed.Add($"{text.Name}: {string.Join(' ', foreign)}");
            else if (!HostileText.IsSeenIn(System.Net.WebUtility.HtmlDecode(html), text.Value))
                failed.Add($"{text.Name}: not seen");
        }

        output.WriteLine($"{tried - failed.Count} of {tried} texts in five places of Markdown read as they are.");
        Assert.True(failed.Count == 0, string.Join("\n", failed));
    }

    private TastingLog LogOf(HostileText text)
    {
        var folder = _folder.CreateSubdirectory(Guid.NewGuid().ToString("N"));
        HostileLog.Write(folder.FullName, [text], coffees: 8);
        return TastingLog.Read(folder.FullName);
    }

    /// <summary>Of a pair of brewers each name is cut; notes are counted in small letters.</summary>
    private static bool IsSaid(string shown, string held, string place) => place switch
    {
        "brewer" => HostileText.IsBegunIn(shown, held),
        "note" => HostileText.IsSeenIn(shown.ToLowerInvariant(), held.ToLowerInvariant()),
        _ => HostileText.IsSeenIn(shown, held),
    };

    /// <summary>What a chart says of the mark that is pointed at; empty if it says nothing within a few seconds.</summary>
    private static async Task<string> SaidAsync(BrowserPage page, int chart)
    {
        var said = $"{ChartMarks.Said}({chart})";
        try
        {
            await page.WaitAsync(said, TimeSpan.FromSeconds(3));
        }
        catch (TimeoutException)
        {
            return "";
        }

        return (string)(await page.EvaluateAsync(said))!;
    }

    private static string PageOf(IReadOnlyList<HostileText> texts, IReadOnlyList<TastingLog> logs)
    {
        var recording = new PageRecording("hostile.ipynb");
        for (var i = 0; i < logs.Count; i++)
        {
            var log = logs[i];
            recording.Prose("# " + TitleOf(texts[i].Value), new Dictionary<string, string>());
            recording.Code(texts[i].Value, []);
            var favourites = log.Favourites();
            foreach (var value in new object[]
            {
                log, log.Problems, log.ToDataFrame(), favourites, favourites.TopChart(), favourites.Table, favourites.By(Factor.Country), favourites.By(Factor.Process),
                favourites.By(Factor.Roaster), log.MethodEffects(Factor.Brewer), log.RestCourse(), log.CalendarCourse(), log.Logged(), log.Logged().NotesChart(), texts[i].Value,
            })
                recording.Show(isResult: true, ShownData.Of(value));
        }

        return recording.Write("log");
    }

    /// <summary>Charts whose marks name something of the log, each under its log's number and the place where the log holds the name.</summary>
    private static string ChartsOf(IReadOnlyList<TastingLog> logs)
    {
        var recording = new PageRecording("charts.ipynb");
        for (var i = 0; i < logs.Count; i++)
        {
            var (log, favourites) = (logs[i], logs[i].Favourites());
            foreach (var (place, chart) in new[]
            {
                ("coffee", favourites.TopChart()), ("process", favourites.By(Factor.Process).Chart()), ("country", favourites.By(Factor.Country).Chart()),
                ("brewer", log.MethodEffects(Factor.Brewer).Chart()), ("note", log.Logged().NotesChart()),
            })
            {
                recording.Prose($"{i} {place}", new Dictionary<string, string>());
                recording.Code(place, []);
                recording.Show(isResult: true, ShownData.Of(chart));
            }
        }

        return recording.Write("log");
    }

    /// <summary>A heading ends with its line, and its own language is Markdown: all of its signs are escaped.</summary>
    private static string TitleOf(string text) =>
        string.Concat(text.ReplaceLineEndings(" ").Select(c => char.IsAscii(c) && char.IsPunctuation(c) || char.IsSymbol(c) ? "\\" + c : $"{c}"));
}
