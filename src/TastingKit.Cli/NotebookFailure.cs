namespace TastingKit.Cli;

/// <summary>A notebook could not be run to its end, by its own fault: other notebooks can go on without it.</summary>
/// <param name="notebook">The notebook's file name.</param>
/// <param name="reason">Where and why, on one line: <c>cell 2, line 3: …</c>.</param>
/// <param name="exitCode">What a script learns from it.</param>
internal sealed class NotebookFailure(string notebook, string reason, int exitCode) : CommandException($"{notebook}: failed: {reason}")
{
    /// <summary>The notebook's file name.</summary>
    internal string Notebook => notebook;

    /// <summary>Where and why.</summary>
    internal string Reason => reason;

    /// <inheritdoc/>
    internal override int ExitCode => exitCode;
}
