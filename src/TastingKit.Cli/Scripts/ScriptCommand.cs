using System.CommandLine;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace TastingKit.Cli.Scripts;

/// <summary>Writes a notebook as a program that makes the same page without a kernel.</summary>
internal static class ScriptCommand
{
    /// <summary>What makes a folder that of the kit's sources, for a script.</summary>
    private const string PagesProject = "src/TastingKit.Pages/TastingKit.Pages.csproj";

    internal static Command Create()
    {
        var notebook = new Argument<string>("NOTEBOOK") { Description = "A Jupyter notebook in C# (.ipynb)." };
        var output = new Option<string>("--out", "-o") { Description = "The program to write (.cs).", HelpName = "FILE.cs", Required = true };
        var kit = new Option<string?>("--kit")
        {
            Description = "The clone of the kit that the program is built with; by default the one that holds this command or the notebook.",
            HelpName = "FOLDER",
        };
        var command = new Command(
            "script",
            """
            Writes a notebook as a C# program of one file, which makes the same page without Jupyter and without a kernel:

              dotnet run FILE.cs -- --log FOLDER [--log FOLDER] --out FILE.html

            The page is the same to the byte, with two exceptions: a value that the kit has no display for (a list, a tuple, an object of
            your own) is shown as plain text; and files that a cell opens are looked for in the working directory, not beside the notebook.

            Example:
              tastingkit script notebooks/01-year-end-review.ipynb --out review.cs
            """)
        {
            notebook,
            output,
            kit,
        };
        command.SetAction(parsed => Run(parsed.GetRequiredValue(notebook), parsed.GetRequiredValue(output), parsed.GetValue(kit)));
        return command;
    }

    private static int Run(string notebookPath, string outputPath, string? kit)
    {
        if (!outputPath.EndsWith(".cs", StringComparison.OrdinalIgnoreCase))
            throw new CommandException($"Can't tell what to write to '{outputPath}'. Expected a name that ends in .cs.");
        var notebook = NotebookCommand.Read(notebookPath);
        var folder = FindKit(kit, notebookPath);
        using var file = new OutputFile(outputPath);
        var references = References();
        var cells = ScriptCell.Read(notebook, references);
        var home = Path.GetDirectoryName(Path.GetFullPath(outputPath))!;
        var script = new ScriptText(notebook, cells, Path.GetRelativePath(home, folder).Replace('\\', '/'), Path.GetFileName(outputPath));
        Check(notebook.Name, script, references);
        file.Write(script.ToString());
        new RunMessages(Console.Error).Wrote(outputPath);
        return ExitCode.Done;
    }

    /// <summary>Compiles the program, so that none is written that can't be run.</summary>
    private static void Check(string notebook, ScriptText script, IReadOnlyList<MetadataReference> references)
    {
        // Lines for the builder are not C#.
        var lines = script.ToString().Split('\n').Select(line => line.StartsWith("#:", StringComparison.Ordinal) ? "" : line);
        var tree = CSharpSyntaxTree.ParseText(string.Join('\n', lines), new CSharpParseOptions(LanguageVersion.Latest));
        var compilation = CSharpCompilation.Create("script", [tree], references, ScriptCell.Options);
        if (compilation.GetDiagnostics().FirstOrDefault(d => d.Severity == DiagnosticSeverity.Error) is not { } error)
            return;
        var line = error.Location.GetLineSpan().StartLinePosition.Line;
        throw ScriptCell.Failure(notebook, script.CellOf(line), null, $"can't be a part of a program as it is: {error.GetMessage(System.Globalization.CultureInfo.InvariantCulture)} ({error.Id}) in: {lines.ElementAt(line).Trim()}");
    }

    /// <summary>The assemblies of this very process: the framework, and the kit without its notebook rooms.</summary>
    private static IReadOnlyList<MetadataReference> References() =>
    [
        .. ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Where(path => path.EndsWith(".dll", StringComparison.OrdinalIgnoreCase)).Select(path => MetadataReference.CreateFromFile(path)),
    ];

    private static string FindKit(string? given, string notebookPath)
    {
        if (given is not null)
            return IsKit(given) ? Path.GetFullPath(given) : throw new CommandException($"There is no {PagesProject} in '{given}'. Expected the folder of a clone of the kit.");
        foreach (var start in new[] { AppContext.BaseDirectory, Path.GetDirectoryName(Path.GetFullPath(notebookPath))! })
        {
            for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
            {
                if (IsKit(folder.FullName))
                    return folder.FullName;
            }
        }

        throw new CommandException("Neither this command nor the notebook lies in a clone of the kit. Expected --kit with the folder of one.");
    }

    private static bool IsKit(string folder) => File.Exists(Path.Combine(folder, PagesProject));
}
