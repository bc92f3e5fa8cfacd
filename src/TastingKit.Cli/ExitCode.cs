namespace TastingKit.Cli;

/// <summary>What a script learns from the command.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    internal const int Done = 0;

    /// <summary>The check was done, and rows were rejected.</summary>
    internal const int RowsRejected = 1;

    /// <summary>The check was done, and something that is needed is missing.</summary>
    internal const int SomethingMissing = 1;

    /// <summary>It could not be done: the arguments, the log, the notebook or the target are not as they must be. Nothing was written.</summary>
    internal const int Failed = 2;

    /// <summary>A notebook failed in one of its cells, or could not be read. Of several, the others were written.</summary>
    internal const int NotebookFailed = 3;

    /// <summary>A cell took longer than its limit and was stopped. Of several notebooks, the others were written.</summary>
    internal const int CellTooLong = 4;

    /// <summary>Stopped by the person at the keyboard. Nothing was written.</summary>
    internal const int Interrupted = 130;

    /// <summary>The codes for the help.</summary>
    internal const string Help =
        "Exit codes: 0 done; 1 checked, and rows were rejected or something is missing; 2 not possible, nothing written; 3 a notebook failed; 4 a cell took too long; 130 interrupted.";
}
