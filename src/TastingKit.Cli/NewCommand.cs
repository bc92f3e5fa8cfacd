using System.CommandLine;

namespace TastingKit.Cli;

/// <summary>Lays down an empty log.</summary>
internal static class NewCommand
{
    internal static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "Where to lay it down; made if it is not there." };
        var force = new Option<bool>("--force") { Description = "Lets it replace files that are there." };
        var command = new Command(
            "new",
            """
            Lays down an empty log: a CSV file with its headers for each thing that is kept, the scales, a README with a line on every column, and a
            filled example.

            Example:
              tastingkit new my-year
            """)
        {
            folder,
            force,
        };
        command.SetAction(parsed => Run(parsed.GetRequiredValue(folder), parsed.GetValue(force)));
        return command;
    }

    private static int Run(string folder, bool force)
    {
        OutputFile.Try(folder, () => NewLog.Write(folder, force));
        Console.Out.WriteLine($"{folder} holds an empty log; its README.md explains every column, and its folder example is a filled one.");
        return ExitCode.Done;
    }
}
