using System.CommandLine;
using TastingKit.Cli.Parameters;

namespace TastingKit.Cli;

/// <summary>Runs the year-end notebook on a log.</summary>
internal static class ReviewCommand
{
    private const string YearEndNotebook = "notebooks/01-year-end-review.ipynb";

    internal static Command Create()
    {
        var folder = LogFolder.Argument();
        var outputs = RunOptions.Outputs();
        var limit = RunOptions.CellLimit();
        var command = new Command(
            "review",
            """
            Writes the review of a year as one page that opens offline in any browser.

            Example:
              tastingkit review sample-data --out review.html
            """)
        {
            folder,
            outputs,
            limit,
        };
        command.SetAction((parsed, cancel) => NotebookCommand.RunAsync(
            Path.Combine(AppContext.BaseDirectory, YearEndNotebook),
            parsed.GetRequiredValue(folder),
            new RunSettings([]),
            parsed.GetRequiredValue(outputs),
            TimeSpan.FromSeconds(parsed.GetValue(limit)),
            cancel));
        return command;
    }
}
