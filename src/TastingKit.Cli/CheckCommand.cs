using System.CommandLine;
using TastingKit.Pages;

namespace TastingKit.Cli;

/// <summary>Reads a log, says what is wrong with it, and writes it in its canonical form.</summary>
internal static class CheckCommand
{
    internal static Command Create()
    {
        var folder = LogFolder.Argument();
        var problems = new Option<string?>("--problems") { Description = "Writes every report as CSV, for a spreadsheet.", HelpName = "OUT.csv" };
        var page = new Option<string?>("--page") { Description = "Writes a page with every report, which opens offline.", HelpName = "OUT.html" };
        var canonical = new Option<string?>("--fixed")
        {
            Description = "Writes the log in its canonical form into a folder, with a list of every change in fixed-cells.csv.",
            HelpName = "OUT",
        };
        var force = new Option<bool>("--force") { Description = "Lets what is written replace files that are there." };
        var command = new Command(
            "check",
            """
            Reads a log and says how many rows were accepted, doubtful and rejected, and by which rule; where, what was found, why, and what would be
            accepted stand in the list and on the page. A doubt that is right after all is confirmed by its line of the list in accepted.csv, beside the log.
            Exit code 1 if rows were rejected.

            Examples:
              tastingkit check sample-data
              tastingkit check my-year --problems problems.csv --page problems.html
              tastingkit check my-year --fixed my-year-fixed
              tastingkit check 2024 2025
            """)
        {
            folder,
            problems,
            page,
            canonical,
            force,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            parsed.GetRequiredValue(folder), parsed.GetValue(problems), parsed.GetValue(page), parsed.GetValue(canonical), parsed.GetValue(force), cancel)));
        return command;
    }

    private static int Run(string[] folders, string? problemsPath, string? pagePath, string? canonicalPath, bool force, CancellationToken cancel)
    {
        if (canonicalPath is not null && folders.Length > 1)
            throw new CommandException("--fixed takes one folder, so that every change can be told by its line. Expected one FOLDER.");
        foreach (var own in folders.Select(LogFolder.Find).Where(Directory.Exists))
            KeepOutOf(own, problemsPath, canonicalPath);
        using var problems = problemsPath is null ? null : new OutputFile(problemsPath, force);
        using var page = pagePath is null ? null : new OutputFile(pagePath, force);
        var canonical = canonicalPath is null ? null : LogFolder.ReadToFix(folders[0], cancel);
        var log = canonical?.Log ?? LogFolder.Read(folders, cancel);
        // What may fail for what is there comes before what is written elsewhere.
        if (canonical is not null)
            WriteCanonical(canonical, canonicalPath!, force);
        problems?.Write(ProblemList.ToCsv(log.Problems));
        page?.Write(CheckPage.Write(log));

        Console.Out.Write(TextRenderer.Render(LogLayout.Summary(log)));
        if (log.Problems.Count > 0 && problems is null && page is null)
            Console.Out.WriteLine("\nEach report with its reason: --problems OUT.csv for a spreadsheet, --page OUT.html for a browser.");
        if (canonical is not null)
            Console.Out.WriteLine($"\n{canonicalPath} holds the canonical form; its {canonical.Changes.Count} changes are listed in {FixedLog.ChangesFile}.");
        return log.Problems.Any(problem => problem.Severity == Severity.Rejected) ? ExitCode.RowsRejected : ExitCode.Done;
    }

    /// <summary>A log's own folder takes no output: the list would be read as a part of it, and the canonical form lacks the rows that were rejected.</summary>
    private static void KeepOutOf(string log, string? problemsPath, string? canonicalPath)
    {
        if (problemsPath is not null && Path.GetDirectoryName(Path.GetFullPath(problemsPath)) == Path.TrimEndingDirectorySeparator(log))
            throw new CommandException($"Can't write '{problemsPath}': it would lie in the log's folder, and be taken for a part of it. Expected a place outside.");
        if (canonicalPath is not null && Path.TrimEndingDirectorySeparator(Path.GetFullPath(canonicalPath)) == Path.TrimEndingDirectorySeparator(log))
            throw new CommandException($"Can't write '{canonicalPath}': it is the log's own folder, whose rejected rows would be lost. Expected another folder.");
    }

    private static void WriteCanonical(FixedLog canonical, string path, bool force)
    {
        try
        {
            OutputFile.Try(path, () => canonical.Write(path, force));
        }
        catch (InvalidOperationException error)
        {
            throw new CommandException($"Can't write '{path}': {error.Message}");
        }
    }
}
