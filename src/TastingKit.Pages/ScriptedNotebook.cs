namespace TastingKit.Pages;

/// <summary>
/// What a notebook's cells find around them, for those that have become a script: the log, and the kernel's two functions for
/// showing something in the midst of a cell. Cells call it <c>TastingNotebook</c>, as in the notebook.
/// </summary>
public static class ScriptedNotebook
{
    private static readonly NotebookLog Chosen = new(WorkWatch.None, advice: "");

    /// <summary>
    /// The folder (or flat file) of the log; several, one a line, are read as one. <see langword="null"/>: the folder <c>sample-data</c> in the
    /// working directory or in one above it.
    /// </summary>
    public static string? LogFolder
    {
        get => Chosen.Folder;
        set => Chosen.Folder = value;
    }

    /// <summary>The log, read once.</summary>
    /// <exception cref="DirectoryNotFoundException">No folder was set and no <c>sample-data</c> is found.</exception>
    public static TastingLog Log => Chosen.Log;

    /// <summary>Does nothing: a page that a script writes has its stylesheet and plotly.js already.</summary>
    public static void Start()
    {
    }

    /// <summary>Shows a value below the cell, before the cell has ended.</summary>
    /// <param name="value">Any value.</param>
    public static void display(object? value) => ScriptPage.Recording.Show(isResult: false, ShownData.Of(value));

    /// <summary>Markup of one's own.</summary>
    /// <param name="html">HTML that is shown as it stands.</param>
    public static ScriptMarkup HTML(string html) => new(html);
}
