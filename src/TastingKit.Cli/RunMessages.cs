using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;

namespace TastingKit.Cli;

/// <summary>
/// What a run says while it works: one line an event, so that a script can use it and notebooks that run at once don't mix.
/// The forms are kept: <c>NOTEBOOK: set: NAME = VALUE</c>, <c>NOTEBOOK: cell 2 of 9: FIRST LINE</c>,
/// <c>NOTEBOOK: progress: cell 2: DOING: 40 %</c>, <c>NOTEBOOK: failed: cell 2, line 3: MESSAGE</c>, <c>NOTEBOOK: done</c>,
/// <c>wrote: PATH</c>, and of work on a log alone <c>progress: DOING: 40 %</c>.
/// </summary>
internal sealed class RunMessages(TextWriter writer) : IProgress<WorkProgress>
{
    /// <summary>Between two lines on how far a notebook's cell has come: a run is watched in minutes, and its messages are kept.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(2);

    private readonly TextWriter _writer = TextWriter.Synchronized(writer);
    private readonly ConcurrentDictionary<string, long> _toldAt = new(StringComparer.Ordinal);

    private long _saidAt = Stopwatch.GetTimestamp();

    internal void Set(string notebook, string name, string value) => Write($"{notebook}: set: {name} = {value}");

    internal void Cell(string notebook, int number, int count, string firstLine)
    {
        _toldAt[notebook] = Stopwatch.GetTimestamp();
        Write(string.Create(CultureInfo.InvariantCulture, $"{notebook}: cell {number} of {count}: {firstLine}"));
    }

    internal void Progress(string notebook, int number, string doing, double? share)
    {
        var told = _toldAt.GetOrAdd(notebook, _ => Stopwatch.GetTimestamp());
        if (Stopwatch.GetElapsedTime(told) < Pause)
            return;
        _toldAt[notebook] = Stopwatch.GetTimestamp();
        Write(string.Create(CultureInfo.InvariantCulture, $"{notebook}: progress: cell {number}: {doing}{(share is { } done ? ": " + NumberText.Percent(done) : "")}"));
    }

    /// <summary>Says how far work on a log has come, where it takes longer than the pause.</summary>
    public void Report(WorkProgress value)
    {
        if (Stopwatch.GetElapsedTime(_saidAt) < Pause)
            return;
        _saidAt = Stopwatch.GetTimestamp();
        Write($"progress: {value.Doing}{(value.Share is { } done ? ": " + NumberText.Percent(done) : "")}");
    }

    internal void Failed(NotebookFailure failure) => Write(failure.Message);

    internal void Done(string notebook) => Write($"{notebook}: done");

    internal void Wrote(string path) => Write($"wrote: {path}");

    /// <summary>Text on one line, without what a terminal would obey.</summary>
    internal static string OneLine(string text) =>
        SeenText.Of(string.Join(' ', text.Split(['\r', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)));

    private void Write(string line) => _writer.WriteLine(OneLine(line));
}
