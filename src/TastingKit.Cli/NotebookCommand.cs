using TastingKit.Cli.Parameters;
using TastingKit.Pages;

namespace TastingKit.Cli;

/// <summary>Runs a notebook and writes what came of it.</summary>
internal static class NotebookCommand
{
    /// <param name="notebookPath">The notebook.</param>
    /// <param name="logPaths">The folders of the log; none for the notebook's own default.</param>
    /// <param name="settings">What to set in it.</param>
    /// <param name="outputPaths">The files to write.</param>
    /// <param name="cellLimit">How long one cell may take.</param>
    /// <param name="cancel">Ends the run at once.</param>
    internal static async Task<int> RunAsync(
        string notebookPath, IReadOnlyList<string> logPaths, RunSettings settings, string[] outputPaths, TimeSpan cellLimit, CancellationToken cancel)
    {
        var messages = new RunMessages(Console.Error);
        var notebook = settings.ApplyTo([Read(notebookPath)], messages)[0];
        var logFolder = LogFolder.Find(logPaths);
        var outputs = Open(outputPaths);
        try
        {
            var run = new NotebookRun(notebook, Path.GetDirectoryName(Path.GetFullPath(notebookPath))!, logFolder, cellLimit);
            var shown = await run.RunAsync(messages, cancel);
            var logName = LogFolder.NameOf(logFolder);
            foreach (var (path, file) in outputs)
            {
                file.Write(IsPage(path) ? NotebookPage.Write(notebook, shown, logName) : notebook.WithOutputs(shown));
                messages.Wrote(path);
            }
        }
        finally
        {
            foreach (var (_, file) in outputs)
                file.Dispose();
        }

        return ExitCode.Done;
    }

    /// <summary>Whether a path is that of a file which a notebook can be written to.</summary>
    internal static bool IsFile(string path) => IsPage(path) || path.EndsWith(".ipynb", StringComparison.OrdinalIgnoreCase);

    /// <summary>Reads a notebook.</summary>
    /// <exception cref="CommandException">It is not there, or no notebook in C#.</exception>
    internal static NotebookDocument Read(string path)
    {
        try
        {
            return NotebookDocument.Read(path);
        }
        catch (Exception error) when (error is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new CommandException($"There is no notebook '{path}'.");
        }
        catch (Exception error) when (error is NotebookException or IOException or UnauthorizedAccessException)
        {
            throw new CommandException(error.Message);
        }
    }

    private static List<(string Path, OutputFile File)> Open(string[] paths)
    {
        foreach (var path in paths)
        {
            if (!IsFile(path))
                throw new CommandException($"Can't tell what to write to '{path}'. Expected a name that ends in .html (a page) or .ipynb (the executed notebook).");
        }

        var files = new List<(string, OutputFile)>();
        try
        {
            foreach (var path in paths)
                files.Add((path, new OutputFile(path)));
        }
        catch (CommandException)
        {
            foreach (var (_, file) in files)
                file.Dispose();
            throw;
        }

        return files;
    }

    private static bool IsPage(string path) =>
        path.EndsWith(".html", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".htm", StringComparison.OrdinalIgnoreCase);
}
