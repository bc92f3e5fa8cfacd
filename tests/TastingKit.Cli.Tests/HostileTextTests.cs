using System.Text.Json.Nodes;
using TastingKit.Tests.Browsing;
using TastingKit.Tests.Hostility;
using Xunit.Abstractions;

namespace TastingKit.Cli.Tests;

/// <summary>Hostile texts where a command meets them: in a log's cells and folder, and in a notebook's cells, title and file name.</summary>
public sealed class HostileTextTests(ITestOutputHelper output) : IDisposable
{
    private readonly Tastingkit _command = new();

    public void Dispose() => _command.Dispose();

    /// <summary>The texts that a file can be called by.</summary>
    private static IReadOnlyList<HostileText> FileNames { get; } =
        [.. HostileTexts.All.Where(text => text.Value.Length < 60 && !text.Value.Contains('/', StringComparison.Ordinal) && !text.Value.Any(c => c == '\0' || char.IsSurrogate(c)) && HostileText.Ink(text.Value).Length > 0)];

    /// <summary>The same, as many to a name as a file's name has room for.</summary>
    private static IReadOnlyList<(string Name, IReadOnlyList<HostileText> Texts)> LongNames { get; } = Together(FileNames);

    [BrowserFact]
    public async Task A_log_is_checked_without_obeying_its_texts()
    {
        const string Folder = "log <b>$x$</b> \u202egol\u001b[31m";
        Directory.CreateDirectory(_command.PathOf(Folder));
        HostileLog.Write(_command.PathOf(Folder), HostileTexts.All);
        // A text where a number should be is quoted in its report.
        await File.AppendAllLinesAsync(_command.PathOf(Path.Combine(Folder, "changes.csv")), HostileTexts.All.Select(text => $"\"{text.Value.Replace("\"", "\"\"", StringComparison.Ordinal)}\",water,,"), new System.Text.UTF8Encoding(false));
        var run = await _command.RunAsync("check", Folder, "--problems", "problems.csv", "--page", "problems.html");
        Assert.InRange(run.ExitCode, 0, 1);
        Assert.DoesNotContain((run.Output + run.Error).EnumerateRunes(), HostileText.IsObeyed);
        Assert.InRange(run.Output.Length, 100, 40_000);

        await using var browser = await Browser.StartAsync();
        var page = await browser.OpenAsync(_command.PathOf("problems.html"), width: 390);
        Assert.Empty(page.Messages);
        Assert.Empty(page.Requests);
        Assert.True((bool)(await page.EvaluateAsync("window.ran === undefined && document.documentElement.scrollWidth <= innerWidth"))!);
        var shown = (string)(await page.EvaluateAsync("document.body.textContent"))!;
        var missing = HostileTexts.All.Where(text => !HostileText.IsSeenIn(shown, text.Value.Length > 60 ? text.Value[..24] : text.Value)).ToArray();
        Assert.True(missing.Length == 0, string.Join("; ", missing.Select(text => text.Name)));
        output.WriteLine($"{HostileTexts.All.Count} texts in {HostileLog.Places.Count} places checked; all quoted on the page of reports.");
    }

    [Fact]
    public async Task A_file_that_is_not_there_is_named_without_being_obeyed()
    {
        foreach (var text in FileNames.Take(12).Concat(FileNames.TakeLast(12)))
        {
            var run = await _command.RunAsync("check", "./" + text.Value);
            Assert.Equal(2, run.ExitCode);
            Assert.True(HostileText.IsSeenIn(run.Error, text.Value), text.Name);
            Assert.DoesNotContain(run.Error.EnumerateRunes(), HostileText.IsObeyed);
        }
    }

    [BrowserFact]
    public async Task A_notebook_of_any_name_becomes_a_page_that_its_site_leads_to()
    {
        foreach (var (name, _) in LongNames)
            _command.Write(Path.Combine("named", name + ".ipynb"), NotebookText.Of(("code", NotebookText.SetUp), ("code", "\"ran\"")));
        var run = await _command.RunAsync("run", "--all", "named", "--out", "site");
        Assert.True(run.ExitCode == 0, run.Error);
        Assert.DoesNotContain((run.Output + run.Error).EnumerateRunes(), HostileText.IsObeyed);

        await using var browser = await Browser.StartAsync();
        var index = await browser.OpenAsync(Path.Combine(_command.PathOf("site"), "index.html"), width: 390);
        var links = (await index.EvaluateAsync("[...document.querySelectorAll('main a')].map(link => link.href)"))!.AsArray().Select(link => (string)link!).ToArray();
        Assert.Equal(LongNames.Count, links.Length);
        var pages = new List<BrowserPage>();
        foreach (var link in links)
            pages.Add(await browser.OpenAsync(link, width: 390));
        var seen = new List<string>();
        foreach (var page in pages.Prepend(index))
        {
            Assert.Empty(page.Messages);
            Assert.Empty(page.Requests);
            Assert.True((bool)(await page.EvaluateAsync("window.ran === undefined && document.documentElement.scrollWidth <= innerWidth"))!);
            var shown = (string)(await page.EvaluateAsync("document.body.textContent"))!;
            Assert.DoesNotContain(shown.EnumerateRunes(), HostileText.IsObeyed);
            var title = (string)(await page.EvaluateAsync("document.title"))!;
            seen.AddRange(page == index ? [] : LongNames.SelectMany(named => named.Texts).Where(text => HostileText.IsSeenIn(title, text.Value) && HostileText.IsSeenIn(shown, text.Value)).Select(text => text.Name));
        }

        Assert.Empty(FileNames.Select(text => text.Name).Except(seen));
        output.WriteLine($"{FileNames.Count} texts in the names of {links.Length} notebooks: each read in its page's title and on the page.");
    }

    [Fact]
    public async Task A_notebook_of_any_text_becomes_a_program_that_compiles()
    {
        var json = JsonNode.Parse(NotebookText.Of([.. HostileTexts.All.SelectMany(text => new[]
        {
            ("markdown", text.Value), ("raw", text.Value), ("code", "// " + text.Value.ReplaceLineEndings(" ").Replace('\0', ' ') + "\n1"),
        })]))!;
        json["cells"]![0]!["attachments"] = new JsonObject([.. HostileTexts.All.Take(40).Select(text => KeyValuePair.Create<string, JsonNode?>(text.Value, new JsonObject { ["image/png"] = "AAAA" }))]);
        json["cells"]![2]!["metadata"]!["tags"] = new JsonArray([.. HostileTexts.All.Select(text => (JsonNode)text.Value)]);
        _command.Write("all.ipynb", json.ToJsonString());
        var all = await _command.RunAsync("script", "all.ipynb", "--out", "all.cs");
        Assert.True(all.ExitCode == 0, all.Error);

        var small = NotebookText.Of(("markdown", "# A"), ("code", "1"));
        var names = FileNames.Where(text => text.Value.Any(c => !char.IsAscii(c) || char.IsControl(c)) || text.Value.Contains("*/", StringComparison.Ordinal)).ToArray();
        foreach (var text in names)
        {
            _command.Write(text.Value + ".ipynb", small);
            var run = await _command.RunAsync("script", "./" + text.Value + ".ipynb", "--out", "./" + text.Value + ".cs");
            Assert.True(run.ExitCode == 0, $"{text.Name}: {run.Error}");
            var program = await File.ReadAllTextAsync(_command.PathOf(text.Value + ".cs"));
            Assert.DoesNotContain(program.EnumerateRunes(), HostileText.IsObeyed);
        }

        output.WriteLine($"{HostileTexts.All.Count} texts in four places of a notebook, and {names.Length} names of notebooks: every program compiled.");
    }

    private static List<(string Name, IReadOnlyList<HostileText> Texts)> Together(IEnumerable<HostileText> texts)
    {
        const int LongestName = 200;
        var names = new List<(string Name, IReadOnlyList<HostileText> Texts)>();
        foreach (var text in texts)
        {
            if (names.Count > 0 && $"{names[^1].Name} and {text.Value}" is var longer && System.Text.Encoding.UTF8.GetByteCount(longer) <= LongestName)
                names[^1] = (longer, [.. names[^1].Texts, text]);
            else
                names.Add((text.Value, [text]));
        }

        return names;
    }
}
