namespace TastingKit.Cli.Tests;

/// <summary>Several notebooks at once, and the site that comes of them.</summary>
public sealed class SiteTests : IDisposable
{
    private readonly Tastingkit _command = new();

    public void Dispose() => _command.Dispose();

    private void WriteNotebooks()
    {
        foreach (var name in new[] { "a", "b", "c" })
        {
            _command.Write($"books/{name}.ipynb", NotebookText.Of(
                ("markdown", $"# The {name} notebook\n\nIt *says* {name}. And more."), ("code", NotebookText.SetUp),
                ("code", $"for (var i = 0; i < 40; i++)\n{{\n    Console.WriteLine(\"{name} \" + i);\n    await Task.Delay(5);\n}}"), ("code", "TastingNotebook.Log.Problems")));
        }
    }

    private string[] Files(string folder) => [.. Directory.GetFileSystemEntries(_command.PathOf(folder)).Select(entry => Path.GetFileName(entry)!).Order(StringComparer.Ordinal)];

    [Fact]
    public async Task Notebooks_run_at_once_give_the_same_bytes_as_one_after_the_other()
    {
        WriteNotebooks();
        foreach (var jobs in new[] { "1", "3" })
        {
            var run = await _command.RunAsync("run", "--all", "books", "--log", Tastingkit.SampleData, "--jobs", jobs, "--out", $"site-{jobs}");
            Assert.True(run.ExitCode == 0, run.Error);
            Assert.All(run.Error.TrimEnd('\n').Split('\n'), line => Assert.Matches(@"^([abc]\.ipynb: (cell \d of 3: .+|done)|wrote: .+)$", line));
        }

        Assert.Equal([".tastingkit-site", "a.html", "b.html", "c.html", "index.html"], Files("site-1"));
        Assert.Equal(Files("site-1"), Files("site-3"));
        foreach (var name in Files("site-1"))
            Assert.True(File.ReadAllBytes(_command.PathOf($"site-1/{name}")).AsSpan().SequenceEqual(File.ReadAllBytes(_command.PathOf($"site-3/{name}"))), name);

        var page = await File.ReadAllTextAsync(_command.PathOf("site-1/b.html"));
        Assert.Contains("<a href=\"index.html\">All pages</a>\n<a rel=\"prev\" href=\"./a.html\">Before: The a notebook</a>\n<a rel=\"next\" href=\"./c.html\">Next: The c notebook</a>", page, StringComparison.Ordinal);
        Assert.Contains("b 39", page, StringComparison.Ordinal);
        Assert.DoesNotContain("a 39", page, StringComparison.Ordinal);
        Assert.Contains("<a href=\"./a.html\">The a notebook</a></h2>\n<p>It says a.</p>", await File.ReadAllTextAsync(_command.PathOf("site-1/index.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_notebook_that_fails_or_never_ends_does_not_lose_the_others()
    {
        _command.Write("good.ipynb", NotebookText.Of(("markdown", "# Good"), ("code", "1 + 1")));
        _command.Write("text.ipynb", "no notebook");
        _command.Write("endless.ipynb", NotebookText.Of(("code", "1"), ("code", "while (true) { }")));
        _command.Write("failing.ipynb", NotebookText.Of(("code", "var x = 0;\nvar y = 1 / x;")));
        var run = await _command.RunAsync("run", "endless.ipynb", "failing.ipynb", "good.ipynb", "text.ipynb", "--cell-limit", "15", "--jobs", "4", "--out", "site");
        Assert.Equal(3, run.ExitCode);
        Assert.Contains("failing.ipynb: failed: cell 1, line 2: Attempted to divide by zero. (DivideByZeroException) in: var y = 1 / x;\n", run.Error, StringComparison.Ordinal);
        Assert.Contains("endless.ipynb: failed: cell 2: took longer than 15 seconds", run.Error, StringComparison.Ordinal);
        Assert.Contains("text.ipynb: failed: text.ipynb is no notebook: its line 1 is not JSON.", run.Error, StringComparison.Ordinal);
        Assert.Equal([".tastingkit-site", "good.html", "index.html"], Files("site"));
        var index = await File.ReadAllTextAsync(_command.PathOf("site/index.html"));
        Assert.Contains("<h2>failing.ipynb</h2>\n<p class=\"tk-index-failed\"><strong>No page:</strong> Cell 1, line 2: Attempted to divide by zero.", index, StringComparison.Ordinal);
        Assert.DoesNotMatch("rel=.(prev|next)", await File.ReadAllTextAsync(_command.PathOf("site/good.html")));

        var none = await _command.RunAsync("run", "endless.ipynb", "--cell-limit", "15", "--out", "nothing");
        Assert.Equal(4, none.ExitCode);
        Assert.False(Directory.Exists(_command.PathOf("nothing")));
        Assert.Empty(Directory.GetFileSystemEntries(_command.Folder, "*.unfinished"));
    }

    [Fact]
    public async Task A_folder_of_somebody_elses_is_left_alone_unless_told_otherwise()
    {
        var notebook = _command.Write("a.ipynb", NotebookText.Of(("code", "1")));
        _command.Write("mine/letter.txt", "mine");
        _command.Write("mine/a.html", "mine too");
        var refused = await _command.RunAsync("run", notebook, "--out", "mine");
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("Can't write 'mine': the folder holds 'a.html', which was not written by tastingkit. Expected a new folder, or --force", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("cell 1", refused.Error, StringComparison.Ordinal);
        Assert.Equal("mine too", await File.ReadAllTextAsync(_command.PathOf("mine/a.html")));

        Assert.Equal(0, (await _command.RunAsync("run", notebook, "--out", "mine", "--force")).ExitCode);
        Assert.Equal([".tastingkit-site", "a.html", "index.html", "letter.txt"], Files("mine"));
        Assert.Equal("mine", await File.ReadAllTextAsync(_command.PathOf("mine/letter.txt")));
        Assert.StartsWith("<!DOCTYPE html>", await File.ReadAllTextAsync(_command.PathOf("mine/a.html")), StringComparison.Ordinal);
        Assert.Equal(["a.ipynb", "mine"], Files("."));
    }

    [Fact]
    public async Task A_site_of_ones_own_is_replaced_whole()
    {
        var first = _command.Write("first.ipynb", NotebookText.Of(("code", "1")));
        var second = _command.Write("second.ipynb", NotebookText.Of(("code", "1")));
        Assert.Equal(0, (await _command.RunAsync("run", first, "--out", "site")).ExitCode);
        Assert.Equal(0, (await _command.RunAsync("run", second, "--out", "site")).ExitCode);
        Assert.Equal([".tastingkit-site", "index.html", "second.html"], Files("site"));
    }

    [Fact]
    public async Task What_cannot_be_a_site_is_refused_before_any_cell_runs()
    {
        _command.Write("x/a.ipynb", NotebookText.Of(("code", "1")));
        _command.Write("y/A.ipynb", NotebookText.Of(("code", "1")));
        _command.Write("index.ipynb", NotebookText.Of(("code", "1")));
        _command.Write("file", "");
        _command.Write("empty/text.txt", "");
        foreach (var (arguments, reason) in new (string[], string)[]
        {
            (["x/a.ipynb", "y/A.ipynb", "--out", "site"], "The page of 'y/A.ipynb' and 'x/a.ipynb' would both be A.html."),
            (["index.ipynb", "--out", "site"], "The page of 'index.ipynb' and the site's index would both be index.html."),
            (["x/a.ipynb", "index.ipynb", "--out", "site.html"], "Can't write several notebooks to 'site.html'."),
            (["x/a.ipynb", "--out", "file"], "Can't write 'file': it is a file."),
            (["x/a.ipynb", "--out", "nowhere/site"], "there is no folder 'nowhere'"),
            (["--all", "empty", "--out", "site"], "There is no notebook in 'empty'."),
            (["--all", "nowhere", "--out", "site"], "There is no folder 'nowhere'."),
            (["x/a.ipynb", "--log", "empty", "--out", "site"], "empty"),
            (["x/a.ipynb", "--set", "top=1", "--out", "site"], "a.ipynb has no parameter 'top'."),
        })
        {
            var run = await _command.RunAsync(["run", .. arguments]);
            Assert.Equal(2, run.ExitCode);
            Assert.Contains(reason, run.Error, StringComparison.Ordinal);
            Assert.DoesNotContain("cell 1", run.Error, StringComparison.Ordinal);
            Assert.False(Directory.Exists(_command.PathOf("site")));
        }
    }

    [Fact]
    public async Task A_value_goes_to_the_notebooks_that_know_its_name()
    {
        _command.Write("books/a.ipynb", NotebookText.Of(("code parameters", "var top = 1;"), ("code", "top * 100")));
        _command.Write("books/b.ipynb", NotebookText.Of(("code", "7")));
        var run = await _command.RunAsync("run", "--all", "books", "--set", "top=3", "--out", "site");
        Assert.True(run.ExitCode == 0, run.Error);
        Assert.Contains("a.ipynb: set: top = 3\n", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("b.ipynb: set", run.Error, StringComparison.Ordinal);
        Assert.Contains(">300</pre>", await File.ReadAllTextAsync(_command.PathOf("site/a.html")), StringComparison.Ordinal);
    }
}
