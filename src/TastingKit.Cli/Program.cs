using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using TastingKit;
using TastingKit.Cli;
using TastingKit.Cli.Scripts;

// Not a RootCommand, whose name is the assembly's; the command is called as its package installs it.
var root = new Command(
    "tastingkit",
    $"""
    Answers for a year of coffee tastings, from the log alone.

    {ExitCode.Help}

    Examples:
      tastingkit new my-year
      tastingkit check sample-data
      tastingkit review sample-data --out review.html
    """)
{
    new HelpOption(),
    new VersionOption(),
    NewCommand.Create(),
    CheckCommand.Create(),
    ReviewCommand.Create(),
    RunCommand.Create(),
    KernelCommand.Create(),
    ScriptCommand.Create(),
};

var parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(RunMessages.OneLine(error.Message));
    Console.Error.WriteLine($"See: {NameOf(parsed.CommandResult)} --help");
    return ExitCode.Failed;
}

try
{
    return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
}
catch (CommandException error)
{
    Console.Error.WriteLine(SeenText.Of(error.Message));
    return error.ExitCode;
}
catch (OperationCanceledException)
{
    Console.Error.WriteLine("Interrupted; nothing was written.");
    return ExitCode.Interrupted;
}

static string NameOf(CommandResult result) => result.Parent is CommandResult parent ? $"{NameOf(parent)} {result.Command.Name}" : result.Command.Name;
