using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>The charts of an open page, whoever made it.</summary>
internal static class ShownCharts
{
    /// <summary>Waits until all charts are drawn, marks and all, and gives back how many there are.</summary>
    internal static async Task<int> AllDrawnAsync(BrowserPage page)
    {
        await page.WaitForChartsAsync();
        var count = await page.CountAsync("figure.tk-chart");
        Assert.Equal(count, await page.CountAsync("figure.tk-chart[data-state=drawn] .main-svg:first-child"));
        Assert.Equal(count, (int)(await page.EvaluateAsync(
            "[...document.querySelectorAll('figure.tk-chart')].filter(figure => figure.querySelector('.trace path, .trace text, .trace .point')).length"))!);
        return count;
    }
}
