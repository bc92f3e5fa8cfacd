using System.CommandLine;

namespace TastingKit.Cli;

/// <summary>Runs any notebook on a log.</summary>
internal static class RunCommand
{
    internal static Command Create()
    {
        var notebook = new Argument<string>("NOTEBOOK") { Description = "A Jupyter notebook in C# (.ipynb)." };
        var log = new Option<string?>("--log")
        {
            Description = "The folder of the log, or one flat CSV file; what the notebook gets as TastingNotebook.Log.",
            HelpName = "FOLDER",
        };
        var outputs = RunOptions.Outputs();
        var limit = RunOptions.CellLimit();
        var command = new Command(
            "run",
            """
            Runs a notebook from the top, each in a process of its own, and stops at the first error.

            Examples:
              tastingkit run notebooks/01-year-end-review.ipynb --log sample-data --out review.html
              tastingkit run my.ipynb --log my-year --out my.html --out my-executed.ipynb
            """)
        {
            notebook,
            log,
            outputs,
            limit,
        };
        command.SetAction((parsed, cancel) => NotebookCommand.RunAsync(
            parsed.GetRequiredValue(notebook),
            parsed.GetValue(log),
            parsed.GetRequiredValue(outputs),
            parsed.GetValue(limit),
            cancel));
        return command;
    }
}
