using TastingKit.Tests.Browsing;
using Xunit.Abstractions;

namespace TastingKit.Cli.Tests.Published;

/// <summary>What holds of every page that a person would publish, on a phone and on a desk, by day and by night.</summary>
[Collection(PublishedPagesGroup.Name)]
public sealed class PublishedPagesTests(PublishedPages pages, ITestOutputHelper output)
{
    private const int LargestPage = 2_000_000;
    private static readonly int[] Widths = [390, 1280];

    public static TheoryData<string, int, bool> Views
    {
        get
        {
            var views = new TheoryData<string, int, bool>();
            foreach (var (name, width) in PublishedPages.Names.SelectMany(name => Widths.Select(width => (name, width))))
            {
                views.Add(name, width, false);
                views.Add(name, width, true);
            }

            return views;
        }
    }

    public static TheoryData<string, int> ByDay
    {
        get
        {
            var views = new TheoryData<string, int>();
            foreach (var (name, width) in PublishedPages.Names.SelectMany(name => Widths.Select(width => (name, width))))
                views.Add(name, width);
            return views;
        }
    }

    [BrowserTheory]
    [MemberData(nameof(Views))]
    public async Task A_page_draws_all_asks_for_nothing_and_fits(string name, int width, bool dark)
    {
        Assert.InRange(new FileInfo(pages.PathOf(name)).Length, 1, LargestPage);
        var page = await pages.OpenAsync(name, width, dark);

        var charts = await page.CountAsync("figure.tk-chart");
        Assert.Equal(charts, await page.CountAsync("figure[data-state=drawn], figure[data-state=none]"));
        Assert.Empty(await WordsAsync(page, "[...document.querySelectorAll('figure[data-state=drawn]')].filter(figure => !figure.querySelector('.trace path, .trace text, .trace .point'))"));
        if (name == PublishedPages.Review)
            Assert.InRange(charts, 8, int.MaxValue);
        // Who can't see a chart gets it in words.
        Assert.Empty(await WordsAsync(page, "[...document.querySelectorAll('.tk-chart-plot')].filter(plot => plot.getAttribute('role') !== 'img' || (plot.getAttribute('aria-label') || '').length < 40)"));

        foreach (var folded in new[] { true, false })
        {
            if (!folded)
                await UnfoldAsync(page);
            Assert.True((bool)(await page.EvaluateAsync("document.documentElement.scrollWidth <= innerWidth"))!, $"The page is wider than {width} pixels.");
            Assert.Empty(await WordsAsync(page, Wider));
        }

        Assert.Empty(await WordsAsync(page, Clipped));
        Assert.Empty(page.Messages);
        Assert.Empty(page.Requests);
    }

    [BrowserTheory]
    [MemberData(nameof(Views))]
    public async Task A_page_has_no_serious_finding_of_axe(string name, int width, bool dark)
    {
        var page = await pages.OpenAsync(name, width, dark);
        await UnfoldAsync(page);
        var findings = await Accessibility.FindingsAsync(page);
        foreach (var finding in findings)
            output.WriteLine(finding.ToString());
        Assert.DoesNotContain(findings, finding => finding.Impact is "serious" or "critical");
    }

    [BrowserFact]
    public async Task Axe_finds_what_is_planted()
    {
        var page = await pages.OpenAsync(PublishedPages.Review, 1280);
        await page.EvaluateAsync("document.querySelector('.tk-chart-plot').removeAttribute('aria-label'); document.querySelector('main p').style.color = '#ddd'");
        var findings = await Accessibility.FindingsAsync(page);
        foreach (var rule in new[] { "role-img-alt", "color-contrast" })
            Assert.Contains(findings, finding => finding.Impact is "serious" or "critical" && finding.Text.StartsWith(rule, StringComparison.Ordinal));
    }

    [BrowserTheory]
    [MemberData(nameof(ByDay))]
    public async Task Pointing_at_a_mark_says_what_it_is(string name, int width)
    {
        var page = await pages.OpenAsync(name, width);
        var charts = await page.CountAsync("figure[data-state=drawn]");
        var pointedAt = 0;
        for (var chart = 0; chart < charts; chart++)
        {
            var marks = (int)(await page.EvaluateAsync($"{ChartMarks.All}({chart}).length"))!;
            Assert.True(marks > 0, $"Chart {chart + 1} has no mark that says anything.");
            foreach (var mark in new[] { 0, marks / 2, marks - 1 }.Distinct())
            {
                await ChartMarks.PointAtAsync(page, chart, mark);
                await page.WaitAsync($"{ChartMarks.Said}({chart}).includes({ChartMarks.Meant}({ChartMarks.All}({chart})[{mark}]))");
                Assert.True(
                    (bool)(await page.EvaluateAsync($"[...document.querySelectorAll('figure[data-state=drawn]')[{chart}].querySelectorAll('.hoverlayer .hovertext')].every(text => {{ const box = text.getBoundingClientRect(); return box.left >= 0 && box.right <= innerWidth && !text.getAttribute('transform').includes('rotate'); }})"))!,
                    $"Chart {chart + 1}: what its mark {mark + 1} says is aslant or does not fit the page.");
                pointedAt++;
            }
        }

        Assert.Empty(page.Messages);
        output.WriteLine($"{pointedAt} marks of {charts} charts pointed at.");
    }

    [BrowserTheory]
    [MemberData(nameof(ByDay))]
    public async Task Everything_that_can_be_used_is_reached_and_used_by_keyboard(string name, int width)
    {
        var page = await pages.OpenAsync(name, width);
        var (unfolded, turned, reached) = (0, 0, 0);
        const int Enough = 2000;
        while (reached < Enough)
        {
            await page.PressAsync("Tab");
            var focus = await page.EvaluateAsync(Focus);
            if (focus is null)
                break;
            reached++;
            Assert.True((bool)focus["isSeen"]!, $"The focus on '{focus["what"]}' is not seen.");
            if ((bool)focus["isFolded"]!)
            {
                await page.PressAsync("Enter");
                await page.WaitAsync("document.activeElement.parentElement.open");
                unfolded++;
            }
            else if ((bool)focus["isTurn"]!)
            {
                await TurnAndTurnBackAsync(page);
                turned++;
            }
        }

        Assert.InRange(reached, 1, Enough - 1);
        Assert.Empty(await WordsAsync(page, $"[...document.querySelectorAll('{Usable}')].filter(element => element.checkVisibility() && !element.reached)"));
        Assert.Equal(0, await page.CountAsync("details:not([open])"));
        output.WriteLine($"{reached} places reached, {unfolded} details unfolded, {turned} tables turned.");
    }

    /// <summary>From the button for later rows, to them and back to the button.</summary>
    private static async Task TurnAndTurnBackAsync(BrowserPage page)
    {
        const string Place = "document.activeElement.parentElement.querySelector('span').textContent";
        var before = (string?)await page.EvaluateAsync(Place);
        await page.PressAsync("Enter");
        Assert.NotEqual(before, (string?)await page.EvaluateAsync(Place));
        // On the last page there is nothing later, and the focus is on the other button already.
        if ((string?)await page.EvaluateAsync("document.activeElement.textContent") != "Earlier rows")
            await page.PressAsync("Tab", withShift: true);
        Assert.True((bool)(await page.EvaluateAsync(Focus))!["isSeen"]!);
        await page.PressAsync("Enter");
        Assert.Equal(before, (string?)await page.EvaluateAsync(Place));
        Assert.Equal("Later rows", (string?)await page.EvaluateAsync("document.activeElement.textContent"));
    }

    [Fact]
    public async Task The_review_is_the_same_to_the_byte_when_it_is_made_again()
    {
        var run = await pages.RunAsync("review", Tastingkit.SampleData, "--out", "again.html");
        Assert.True(run.ExitCode == 0, run.Error);
        Assert.Equal(await File.ReadAllBytesAsync(pages.PathOf(PublishedPages.Review)), await File.ReadAllBytesAsync(pages.PathOf("again.html")));
    }

    private const string Usable = "a[href], button:not(:disabled), summary, input, [tabindex=\"0\"]";

    /// <summary>What reaches over the right edge and is not within something that scrolls by itself.</summary>
    private const string Wider =
        """
        [...document.body.querySelectorAll('*')].filter(element => element.checkVisibility() && element.getBoundingClientRect().right > innerWidth + 0.5 && !element.closest('.tk-scroll, pre, .tk-skip'))
        """;

    /// <summary>Text of a chart that reaches over the chart's edges.</summary>
    private const string Clipped =
        """
        [...document.querySelectorAll('figure[data-state=drawn]')].flatMap(figure => {
          const room = figure.querySelector('.main-svg').getBoundingClientRect();
          return [...figure.querySelectorAll('.main-svg text')].filter(text => {
            const box = text.getBoundingClientRect();
            return box.width > 0 && (box.left < room.left - 1 || box.right > room.right + 1 || box.top < room.top - 1 || box.bottom > room.bottom + 1);
          });
        })
        """;

    /// <summary>Where the focus is, and whether it can be seen; null if it has left the page.</summary>
    private const string Focus =
        """
        (element => {
          if (element === document.body) return null;
          element.reached = true;
          const style = getComputedStyle(element), box = element.getBoundingClientRect();
          return {
            what: element.outerHTML.slice(0, 120),
            isSeen: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 1 && box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
            isFolded: element.tagName === 'SUMMARY' && !element.parentElement.open,
            isTurn: element.tagName === 'BUTTON' && element.textContent === 'Later rows'
          };
        })(document.activeElement)
        """;

    private static Task UnfoldAsync(BrowserPage page) => page.EvaluateAsync("document.querySelectorAll('details').forEach(details => { details.open = true; })");

    /// <summary>The elements that an expression finds, each by its beginning.</summary>
    private static async Task<string[]> WordsAsync(BrowserPage page, string elements) =>
        [.. (await page.EvaluateAsync($"({elements}).slice(0, 10).map(element => element.outerHTML.slice(0, 160))"))!.AsArray().Select(element => (string)element!)];
}
