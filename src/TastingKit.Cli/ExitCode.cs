namespace TastingKit.Cli;

/// <summary>What a script learns from the command.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    internal const int Done = 0;

    /// <summary>The check was done, and rows were rejected.</summary>
    internal const int RowsRejected = 1;

    /// <summary>It could not be done: the arguments, the log, the notebook or the target are not as they must be. Nothing was written.</summary>
    internal const int Failed = 2;

    /// <summary>Stopped by the person at the keyboard. Nothing was written.</summary>
    internal const int Interrupted = 130;
}
