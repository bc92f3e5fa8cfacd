using System.CommandLine;
using TastingKit.Cli.Parameters;

namespace TastingKit.Cli;

/// <summary>Runs any notebook on a log, or several at once.</summary>
internal static class RunCommand
{
    internal static Command Create()
    {
        var notebooks = new Argument<string[]>("NOTEBOOK") { Description = "Jupyter notebooks in C# (.ipynb).", Arity = ArgumentArity.ZeroOrMore };
        var all = new Option<string?>("--all") { Description = "Runs every notebook of a folder, by name.", HelpName = "FOLDER" };
        var log = new Option<string[]>("--log")
        {
            Description = "The folder of the log, or one flat CSV file; what the notebook gets as TastingNotebook.Log. May be given more than once: a folder a year.",
            HelpName = "FOLDER",
        };
        var outputs = new Option<string[]>("--out", "-o")
        {
            Description = "Where to write: a page (.html) or the executed notebook (.ipynb), may be given more than once; or a folder, for a site of all pages.",
            HelpName = "FILE",
            Required = true,
        };
        var settings = RunOptions.Settings();
        var jobs = RunOptions.Jobs();
        var limit = RunOptions.CellLimit();
        var force = new Option<bool>("--force") { Description = "Writes the site into a folder that holds other files; these stay, unless a page has the same name." };
        var command = new Command(
            "run",
            $"""
            Runs notebooks from the top, each in a process of its own, and stops at a notebook's first error.

            To a file it writes one notebook. To a folder it writes a site: an index, and a page a notebook. A notebook that fails has no
            page; the others have theirs.

            What happens is told on standard error, one line an event:
              NOTEBOOK: set: NAME = VALUE
              NOTEBOOK: cell 2 of 9: FIRST LINE OF THE CELL
              NOTEBOOK: progress: cell 2: WHAT IT IS DOING: 40 %
              NOTEBOOK: failed: cell 2, line 3: MESSAGE (KIND OF ERROR) in: THE LINE
              NOTEBOOK: done
              wrote: PATH

            {ExitCode.Help}
            After 3 and 4, a single notebook has written nothing, and a site holds the pages of those that ran to their end.

            Examples:
              tastingkit run notebooks/01-year-end-review.ipynb --log sample-data --out review.html
              tastingkit run my.ipynb --log my-year --set top=5 --out my.html --out my-executed.ipynb
              tastingkit run --all notebooks --log sample-data --out site
            """)
        {
            notebooks,
            all,
            log,
            outputs,
            settings,
            jobs,
            limit,
            force,
        };
        command.Validators.Add(parsed =>
        {
            if ((parsed.GetValue(notebooks) ?? []).Length == 0 && parsed.GetValue(all) is null)
                parsed.AddError("No notebook was given. Expected one or more, or --all FOLDER.");
            else if ((parsed.GetValue(notebooks) ?? []).Length > 0 && parsed.GetValue(all) is not null)
                parsed.AddError("Notebooks and --all were both given. Expected one of the two.");
        });
        command.SetAction((parsed, cancel) =>
        {
            var paths = parsed.GetValue(all) is { } folder ? SiteRun.NotebooksOf(folder) : parsed.GetRequiredValue(notebooks);
            var set = new RunSettings(parsed.GetValue(settings) ?? []);
            var cellLimit = TimeSpan.FromSeconds(parsed.GetValue(limit));
            var targets = parsed.GetRequiredValue(outputs);
            var isSeveral = paths.Count > 1 || parsed.GetValue(all) is not null;
            if (targets is [var only] && !NotebookCommand.IsFile(only) && (isSeveral || Directory.Exists(only) || !Path.HasExtension(Path.TrimEndingDirectorySeparator(only))))
                return SiteRun.RunAsync(paths, parsed.GetValue(log) ?? [], set, targets[0], parsed.GetValue(force), parsed.GetValue(jobs), cellLimit, cancel);
            if (isSeveral)
                throw new CommandException($"Can't write several notebooks to '{targets[0]}'. Expected --out with the name of one folder.");
            return NotebookCommand.RunAsync(paths[0], parsed.GetValue(log) ?? [], set, targets, cellLimit, cancel);
        });
        return command;
    }
}
