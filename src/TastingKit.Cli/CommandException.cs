namespace TastingKit.Cli;

/// <summary>What was asked can't be done; the message is all that a person needs to put it right.</summary>
internal class CommandException(string message) : Exception(message)
{
    /// <summary>What a script learns from it.</summary>
    internal virtual int ExitCode => Cli.ExitCode.Failed;
}
