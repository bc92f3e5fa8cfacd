using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests;

/// <summary>The year-end review of the sample log, as the first command of the README makes it.</summary>
public sealed class ReviewTests : IAsyncLifetime, IDisposable
{
    private const int LargestPage = 2_000_000;

    private readonly Tastingkit _command = new();

    private string Page => _command.PathOf("review.html");

    public async Task InitializeAsync()
    {
        var run = await _command.RunAsync("review", Tastingkit.SampleData, "--out", "review.html");
        Assert.True(run.ExitCode == 0, run.Error);
    }

    public Task DisposeAsync() => Task.CompletedTask;

    public void Dispose() => _command.Dispose();

    [BrowserFact]
    public async Task The_page_draws_a_chart_for_each_result_without_a_network()
    {
        Assert.InRange(new FileInfo(Page).Length, 1, LargestPage);
        await using var browser = await Browser.StartAsync();
        foreach (var width in new[] { 1280, 390 })
        {
            var page = await browser.OpenAsync(Page, width);
            await page.WaitForChartsAsync();
            Assert.InRange(await page.CountAsync("figure.tk-chart"), 8, int.MaxValue);
            Assert.Equal(await page.CountAsync("figure.tk-chart"), await page.CountAsync("figure[data-state=drawn]"));
            Assert.Equal(await page.CountAsync("figure.tk-chart"), (int)(await page.EvaluateAsync(
                "[...document.querySelectorAll('figure.tk-chart')].filter(figure => figure.querySelector('.trace path, .trace text, .trace .point')).length"))!);
            Assert.True((bool)(await page.EvaluateAsync($"document.documentElement.scrollWidth <= {width}"))!, $"The page is wider than {width} pixels.");
            Assert.Empty(page.Messages);
            Assert.Empty(page.Requests);
        }
    }

    [Fact]
    public async Task The_page_is_the_same_to_the_byte_when_it_is_made_again()
    {
        var run = await _command.RunAsync("review", Tastingkit.SampleData, "--out", "again.html");
        Assert.True(run.ExitCode == 0, run.Error);
        Assert.Equal(await File.ReadAllBytesAsync(Page), await File.ReadAllBytesAsync(_command.PathOf("again.html")));
    }
}
