namespace TastingKit.Cli;

/// <summary>What was asked can't be done; the message is all that a person needs to put it right.</summary>
internal sealed class CommandException(string message) : Exception(message);
