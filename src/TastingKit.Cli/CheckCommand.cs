using System.CommandLine;

namespace TastingKit.Cli;

/// <summary>Reads a log and reports on it row by row.</summary>
internal static class CheckCommand
{
    internal static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "The folder of the log, or one flat CSV file." };
        var command = new Command(
            "check",
            """
            Reads a log and reports every row that was rejected or is doubtful: where, what was found, why, and what would be accepted.
            Exit code 1 if rows were rejected.

            Example:
              tastingkit check sample-data
            """)
        {
            folder,
        };
        command.SetAction(parsed => Run(parsed.GetRequiredValue(folder)));
        return command;
    }

    private static int Run(string folder)
    {
        var log = LogFolder.Read(folder);
        Console.Out.Write(TextRenderer.Render(LogLayout.Of(log)));
        return log.Problems.Any(problem => problem.Severity == Severity.Rejected) ? ExitCode.RowsRejected : ExitCode.Done;
    }
}
