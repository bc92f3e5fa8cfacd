using System.Diagnostics;
using System.Text.Json.Nodes;

namespace TastingKit.Cli.Tests;

/// <summary>Notebooks as programs: built and run by <c>dotnet run</c>, and their pages held against those of the notebooks.</summary>
public sealed class ScriptTests : IDisposable
{
    private const string Picture = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==";

    private readonly Tastingkit _command = new();

    /// <summary>Every notebook that the repository has, those that come later among them.</summary>
    public static TheoryData<string> Notebooks =>
        [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "notebooks"), "*.ipynb").Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal)];

    public void Dispose() => _command.Dispose();

    [Theory]
    [MemberData(nameof(Notebooks))]
    public Task Every_notebook_gives_the_same_page_as_a_program(string name) =>
        GivesTheSamePage(Path.Combine(AppContext.BaseDirectory, "notebooks", name));

    /// <summary>What a cell may do and a program's top may not, or not so: declared again, hidden, hoisted, shown, awaited.</summary>
    [Fact]
    public async Task What_cells_can_do_and_programs_cannot_comes_to_the_same_page()
    {
        var json = JsonNode.Parse(NotebookText.Of(
            ("markdown", "# Limits\n\n![dot](attachment:dot.png) \"\"\" and \\ and {x}"),
            ("code", NotebookText.SetUp),
            ("code", "int Half(int x) => x / 2;\nHalf(10)"),
            ("code", "var x = 3;\nx"),
            ("code", "// again, as another type\nvar x = \"three\"; // with words\n$\"{x} {nameof(x)} {x.Length}\" // shown"),
            ("code", "record Cup(string Name, double Score);\nvar cups = new[] { new Cup(\"a\", 1.5), new Cup(\"b\", 2) };\ncups.Sum(cup => cup.Score)"),
            ("code", "class Cup\n{\n    public Cup(int n) => N = n;\n\n    public int N { get; }\n}\n\nnew Cup(3).N + cups.Length"),
            ("code", "await Task.Delay(1);\nint later;\nint[] none, nothing;\nlater++;\nlater"),
            ("code", "foreach (var bag in TastingNotebook.Log.Bags.Take(2))\n    Console.WriteLine(bag.Id);\nfor (var i = 0; i < 2; i++)\n    Console.WriteLine(i);"),
            ("code", "var bag = TastingNotebook.Log.Bags[0];\nvar i = 7;\nbag.Coffee.Label + i"),
            ("code", "display(\"shown\");\nConsole.WriteLine(\"printed\");\nConsole.Write('c');\nConsole.Error.Write(\"warned\");\ndisplay(1.5);\ndisplay(TastingNotebook.Log);"),
            ("code", "string Half(string s) => s[..(s.Length / 2)];\nHalf(\"abcd\") + Half(\"ef\")"),
            ("code", "var (a, b) = (1, \"two\");\nvar t = (a, b);\nvar o = new { a, b };\n$\"{t.a} {t.b} {o.a} {o.b}\""),
            ("code", "var a = 5.5;\nvar t = (a, b);\nvar o = new { a };\n$\"{t.a} {t.b} {o.a}\""),
            ("code", "if (int.TryParse(\"12\", out var parsed))\n    Console.WriteLine(parsed);\nint.TryParse(\"13\", out var outer);\nouter"),
            ("code", "public static string Loud(this string s) => s.ToUpperInvariant();"),
            ("code", "\"quiet\".Loud()"),
            ("code", "using System.IO; using static System.Math; using Folder = System.IO.Directory;\nPath.GetExtension(\"a.b\") + Max(1, 2) + Folder.Exists(\"nowhere\")"),
            ("code", "Console.WriteLine(\"no semicolon\")"),
            ("code", "// only words"),
            ("code", ""),
            ("code", "HTML(\"<p>own</p>\")"),
            ("code", "var odd = from x in Enumerable.Range(0, 5) where x % 2 == 1 select x;\nstring.Join(\",\", odd)"),
            ("code", "enum Kind { A, B }\nKind.B"),
            ("code", "var quoted = \"\"\"\"\n    three \"\"\" quotes\n    \"\"\"\";\nquoted"),
            ("code", "var f = (int x) => x + 1;\nf(1)"),
            ("code", "const int Top = 3;\npublic int limit = Top;\nTop + limit"),
            ("code", "int Top(int n) { int Inner(int m) => m + 1; return Inner(n); }\nTop(1)"),
            ("code", "object thing = \"text\";\nif (thing is string s)\n    Console.WriteLine(s);\ntry { throw new Exception(\"caught\"); } catch (Exception e) { Console.WriteLine(e.Message); }"),
            ("code", "var s = 1; var e = 2; var args = 3; var outer = 4;\ns + e + args + outer"),
            ("code", "new DateOnly(2025, 3, 1)"),
            ("code", "'c'"),
            ("code", "new DateTime(2025, 3, 1, 8, 30, 0)"),
            ("code", "\"<b>\\u202e\\0 \\ud83d\\ude00\""),
            ("code parameters", "var first = true;"),
            ("code", "async Task<int> Twice(int n)\n{\n    await Task.Yield();\n    return 2 * n;\n}\n\nawait Twice(4)"),
            ("raw", "left $alone$"),
            ("code", "#!fsharp\nlet x = 1"),
            ("markdown", "")))!;
        json["cells"]![0]!["attachments"] = new JsonObject { ["dot.png"] = new JsonObject { ["image/png"] = Picture } };
        await GivesTheSamePage(_command.Write("limits.ipynb", json.ToJsonString()));
    }

    [Theory]
    [InlineData("#r \"nuget: Some.Package, 1.0.0\"", "cell 2, line 1: '#r \"nuget: Some.Package, 1.0.0\"' is for the kernel, and a script has none.")]
    [InlineData("1\n#!import other.dib", "cell 2, line 2: '#!import other.dib' is for the kernel")]
    [InlineData("var x = 1;\nvar y = missing;", "cell 2, line 2: The name 'missing' does not exist in the current context (CS0103)")]
    [InlineData("using Microsoft.DotNet.Interactive;", "cell 2, line 1: The type or namespace name 'DotNet' does not exist in the namespace 'Microsoft'")]
    [InlineData("int P { get; } = 3;", "cell 2, line 1: a PropertyDeclaration can't stand at the top of a program.")]
    [InlineData("int Early() => late;\nvar x = Early();\nvar late = 3;", "cell 2: can't be a part of a program as it is: ")]
    public async Task What_cannot_become_a_program_is_refused_by_its_cell(string source, string reason)
    {
        _command.Write("n.ipynb", NotebookText.Of(("code", "0"), ("code", source)));
        var run = await _command.RunAsync("script", "n.ipynb", "--out", "n.cs");
        Assert.Equal(3, run.ExitCode);
        Assert.Contains("n.ipynb: failed: " + reason, run.Error, StringComparison.Ordinal);
        Assert.Equal(["n.ipynb"], Directory.GetFiles(_command.Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Wrong_targets_are_refused()
    {
        _command.Write("n.ipynb", NotebookText.Of(("code", "0")));
        Assert.Contains("Expected a name that ends in .cs.", (await _command.RunAsync("script", "n.ipynb", "--out", "n.txt")).Error, StringComparison.Ordinal);
        Assert.Contains("Expected the folder of a clone of the kit.", (await _command.RunAsync("script", "n.ipynb", "--out", "n.cs", "--kit", ".")).Error, StringComparison.Ordinal);
        Assert.Contains("There is no notebook 'x.ipynb'.", (await _command.RunAsync("script", "x.ipynb", "--out", "n.cs")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Several_folders_are_one_log_to_a_program_too()
    {
        _command.Write("earlier/bags.csv", "bag_id,coffee\nE1,Halo\n");
        _command.Write("earlier/tastings.csv", "tasting_id,bag_id,tasted_at,score\nE-1,E1,2020-01-02,7\n");
        var notebook = _command.Write("count.ipynb", NotebookText.Of(("code", NotebookText.SetUp), ("code", "var log = TastingNotebook.Log;\n$\"{log.Name}: {log.Tastings[0].Id}, {log.Tastings.Count > 1}\"")));
        await GivesTheSamePage(notebook, _command.PathOf("earlier"));
        Assert.Contains("earlier + sample-data: E-1, True", await File.ReadAllTextAsync(_command.PathOf("program.html")), StringComparison.Ordinal);
    }

    private async Task GivesTheSamePage(string notebook, params string[] earlier)
    {
        string[] logs = [.. earlier.Append(Tastingkit.SampleData).SelectMany(folder => new[] { "--log", folder })];
        var run = await _command.RunAsync(["run", notebook, .. logs, "--out", "notebook.html"]);
        Assert.True(run.ExitCode == 0, run.Error);
        var script = await _command.RunAsync("script", notebook, "--out", "program.cs");
        Assert.True(script.ExitCode == 0, script.Error);
        var (exitCode, output) = await DotnetRunAsync("program.cs", [.. logs, "--out", "program.html"]);
        Assert.True(exitCode == 0, output);
        Assert.Equal(await File.ReadAllTextAsync(_command.PathOf("notebook.html")), await File.ReadAllTextAsync(_command.PathOf("program.html")));
    }

    private async Task<(int ExitCode, string Output)> DotnetRunAsync(string script, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet", ["run", "-c", "Release", script, "--", .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = _command.Folder,
        })!;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromMinutes(5));
        return (process.ExitCode, await output + await error);
    }
}
