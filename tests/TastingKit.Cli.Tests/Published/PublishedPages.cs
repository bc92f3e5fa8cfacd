using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Published;

/// <summary>
/// What a person would publish: the site of every notebook that the repository has, and the review, both of the sample log.
/// Made once for all tests that look at them.
/// </summary>
public sealed class PublishedPages : IAsyncLifetime, IDisposable
{
    internal const string Review = "review.html";
    internal const string Index = "index.html";

    private readonly Tastingkit _command = new();
    private Browser? _browser;

    /// <summary>Every page by its name, those of notebooks that come later among them.</summary>
    public static IEnumerable<string> Names =>
    [
        Review, Index,
        .. Directory.GetFiles(Notebooks, "*.ipynb").Order(StringComparer.Ordinal).Select(path => Path.GetFileNameWithoutExtension(path) + ".html"),
    ];

    internal string ReviewPath => PathOf(Review);

    private static string Notebooks => Path.Combine(AppContext.BaseDirectory, "notebooks");

    public async Task InitializeAsync()
    {
        foreach (var arguments in new string[][]
        {
            ["review", Tastingkit.SampleData, "--out", Review],
            ["run", "--all", Notebooks, "--log", Tastingkit.SampleData, "--out", "site"],
        })
        {
            var run = await _command.RunAsync(arguments);
            Assert.True(run.ExitCode == 0, run.Error);
        }
    }

    public async Task DisposeAsync()
    {
        if (_browser is not null)
            await _browser.DisposeAsync();
    }

    public void Dispose() => _command.Dispose();

    /// <summary>Opens a page and waits for its charts.</summary>
    internal async Task<BrowserPage> OpenAsync(string name, int width, bool dark = false)
    {
        _browser ??= await Browser.StartAsync();
        var page = await _browser.OpenAsync(PathOf(name), width, dark: dark);
        await page.WaitForChartsAsync();
        return page;
    }

    internal Task<(int ExitCode, string Output, string Error)> RunAsync(params string[] arguments) => _command.RunAsync(arguments);

    internal string PathOf(string name) => _command.PathOf(name == Review || File.Exists(_command.PathOf(name)) ? name : Path.Combine("site", name));
}

/// <summary>The tests that share the pages.</summary>
[CollectionDefinition(Name)]
public sealed class PublishedPagesGroup : ICollectionFixture<PublishedPages>
{
    public const string Name = "Published pages";
}
