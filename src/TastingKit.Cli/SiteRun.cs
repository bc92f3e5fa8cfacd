using TastingKit.Cli.Parameters;
using TastingKit.Pages;

namespace TastingKit.Cli;

/// <summary>
/// Runs several notebooks, some at once and each in a process of its own, and writes them as a site: an index, and a page a
/// notebook. One that fails has no page and is said to have failed; the others are written.
/// </summary>
internal static class SiteRun
{
    /// <param name="notebookPaths">The notebooks in reading order.</param>
    /// <param name="logPaths">The folders of the log; none for the notebooks' own default.</param>
    /// <param name="settings">What to set in them.</param>
    /// <param name="folder">The site's folder.</param>
    /// <param name="force">Whether to write into a folder that holds files of somebody else's.</param>
    /// <param name="jobs">How many run at once.</param>
    /// <param name="cellLimit">How long one cell may take.</param>
    /// <param name="cancel">Ends all runs at once.</param>
    internal static async Task<int> RunAsync(
        IReadOnlyList<string> notebookPaths, IReadOnlyList<string> logPaths, RunSettings settings, string folder, bool force, int jobs, TimeSpan cellLimit, CancellationToken cancel)
    {
        CheckNames(notebookPaths);
        var messages = new RunMessages(Console.Error);
        var logFolder = LogFolder.Find(logPaths);
        using var target = new OutputFolder(folder, force);
        var failures = new NotebookFailure?[notebookPaths.Count];
        var read = notebookPaths.Select((path, i) => TryRead(path, messages, out failures[i])).ToArray();
        var notebooks = new Queue<NotebookDocument>(settings.ApplyTo([.. read.OfType<NotebookDocument>()], messages));
        var runs = read.Select((notebook, i) => notebook is null ? null : new Work(notebooks.Dequeue(), notebookPaths[i])).ToArray();

        var options = new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancel };
        await Parallel.ForAsync(0, runs.Length, options, async (i, stop) =>
        {
            try
            {
                if (runs[i] is { } work)
                    work.Outputs = await new NotebookRun(work.Notebook, work.Folder, logFolder, cellLimit).RunAsync(messages, stop);
            }
            catch (NotebookFailure failure)
            {
                failures[i] = failure;
                messages.Failed(failure);
            }
        });

        if (runs.All(work => work?.Outputs is null))
            return CodeOf(failures);
        Write(target, runs, failures, LogFolder.NameOf(logFolder));
        messages.Wrote(Path.Combine(folder, SiteIndex.FileName));
        return CodeOf(failures);
    }

    /// <summary>The notebooks of a folder by name; those of its own folders are left out, copies that Jupyter keeps among them.</summary>
    /// <exception cref="CommandException">There is no such folder, or no notebook in it.</exception>
    internal static IReadOnlyList<string> NotebooksOf(string folder)
    {
        if (!Directory.Exists(folder))
            throw new CommandException($"There is no folder '{folder}'. Expected a folder of notebooks (.ipynb).");
        var found = Directory.GetFiles(folder, "*.ipynb").Order(StringComparer.Ordinal).ToArray();
        return found.Length > 0 ? found : throw new CommandException($"There is no notebook in '{folder}'. Expected at least one file that ends in .ipynb.");
    }

    private static void Write(OutputFolder target, Work?[] runs, NotebookFailure?[] failures, string? logName)
    {
        var entries = runs.Select((work, i) => work?.Outputs is null
            ? new SiteEntry.Failed(failures[i]!.Notebook, Sentence(failures[i]!.Reason))
            : (SiteEntry)new SiteEntry.Page(PageName(work.Notebook.Name), work.Notebook.Title, work.Notebook.Description)).ToArray();
        for (var i = 0; i < entries.Length; i++)
        {
            if (entries[i] is not SiteEntry.Page page)
                continue;
            var place = new SitePlace(entries[..i].OfType<SiteEntry.Page>().LastOrDefault(), entries[(i + 1)..].OfType<SiteEntry.Page>().FirstOrDefault());
            target.Add(page.FileName, NotebookPage.Write(runs[i]!.Notebook, runs[i]!.Outputs!, logName, place));
        }

        target.Add(SiteIndex.FileName, SiteIndex.Write(entries, logName));
        target.Finish();
    }

    private static string PageName(string notebookName) => Path.GetFileNameWithoutExtension(notebookName) + ".html";

    private static string Sentence(string reason) => char.ToUpperInvariant(reason[0]) + reason[1..];

    /// <summary>Two pages of one name would be one page, also where a disk takes capitals for small letters.</summary>
    private static void CheckNames(IReadOnlyList<string> paths)
    {
        var taken = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase) { [SiteIndex.FileName] = "the site's index" };
        foreach (var path in paths)
        {
            if (!taken.TryAdd(PageName(path), $"'{path}'"))
                throw new CommandException($"The page of '{path}' and {taken[PageName(path)]} would both be {PageName(path)}. Expected notebooks of different names.");
        }
    }

    private static NotebookDocument? TryRead(string path, RunMessages messages, out NotebookFailure? failure)
    {
        failure = null;
        try
        {
            return NotebookCommand.Read(path);
        }
        catch (CommandException error)
        {
            failure = new NotebookFailure(Path.GetFileName(path), RunMessages.OneLine(error.Message), ExitCode.NotebookFailed);
            messages.Failed(failure);
            return null;
        }
    }

    private static int CodeOf(NotebookFailure?[] failures) => failures.OfType<NotebookFailure>().Select(failure => failure.ExitCode).DefaultIfEmpty(ExitCode.Done).Min();

    /// <summary>A notebook, and what came of it.</summary>
    private sealed class Work(NotebookDocument notebook, string path)
    {
        internal NotebookDocument Notebook { get; } = notebook;

        internal string Folder { get; } = Path.GetDirectoryName(Path.GetFullPath(path))!;

        internal IReadOnlyDictionary<int, IReadOnlyList<CellOutput>>? Outputs { get; set; }
    }
}
