using TastingKit.Pages;

namespace TastingKit.Cli;

/// <summary>Runs a notebook and writes what came of it.</summary>
internal static class NotebookCommand
{
    internal static async Task<int> RunAsync(string notebookPath, string? logPath, string[] outputPaths, int cellLimit, CancellationToken cancel)
    {
        var notebook = Read(notebookPath);
        var logFolder = logPath is null ? null : LogFolder.Find(logPath);
        var outputs = Open(outputPaths);
        try
        {
            var run = new NotebookRun(notebook, Path.GetDirectoryName(Path.GetFullPath(notebookPath))!, logFolder, TimeSpan.FromSeconds(cellLimit));
            var shown = await run.RunAsync(Console.Error, cancel);
            var logName = logFolder is null ? null : Path.GetFileName(Path.TrimEndingDirectorySeparator(logFolder));
            foreach (var (path, file) in outputs)
            {
                file.Write(IsPage(path) ? NotebookPage.Write(notebook, shown, logName) : notebook.WithOutputs(shown));
                await Console.Error.WriteLineAsync($"Wrote {path}.");
            }
        }
        finally
        {
            foreach (var (_, file) in outputs)
                file.Dispose();
        }

        return ExitCode.Done;
    }

    private static NotebookDocument Read(string path)
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
            if (!IsPage(path) && !path.EndsWith(".ipynb", StringComparison.OrdinalIgnoreCase))
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
