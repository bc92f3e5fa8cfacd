namespace TastingKit.Notebooks;

/// <summary>What a notebook needs of the kit before its first line: the displays, and the log.</summary>
public static class TastingNotebook
{
    private static readonly NotebookLog Chosen = new(
        CellWatch.OfRunningCell, $"Set {nameof(TastingNotebook)}.{nameof(LogFolder)} to the folder of your log before {nameof(TastingNotebook)}.{nameof(Log)}.");

    /// <summary>
    /// The folder (or flat file) of the log that notebooks are about, several one a line; set by whoever runs them. <see langword="null"/>: the
    /// folder <c>sample-data</c> in the working directory or in one above it.
    /// </summary>
    public static string? LogFolder
    {
        get => Chosen.Folder;
        set => Chosen.Folder = value;
    }

    /// <summary>
    /// Is told how far long work has come, on any thread; set by whoever runs notebooks without a person before them.
    /// <see langword="null"/>: it is shown below the running cell.
    /// </summary>
    public static IProgress<WorkProgress>? Progress { get; set; }

    /// <summary>
    /// The log, read once. What is asked of it shows its progress below the cell, and ends when the cell is interrupted.
    /// </summary>
    /// <exception cref="DirectoryNotFoundException">No folder was set and no <c>sample-data</c> is found.</exception>
    public static TastingLog Log => Chosen.Log;

    /// <summary>
    /// Registers the displays of results, tables, charts, logs and DataFrames. The value returned has to be shown: end the
    /// first cell with this call and no semicolon.
    /// </summary>
    public static NotebookSetUp Start()
    {
        NotebookDisplays.Register();
        return new NotebookSetUp();
    }
}
