using System.Text.Json.Serialization;

namespace TastingKit.NotebookHost;

// What the host and whoever starts it say to each other: one request in, then events out, each one line of JSON. The
// command compiles this file as well, since it starts the host without referencing it.

/// <summary>The cells to run, in order.</summary>
/// <param name="Cells">The cells.</param>
/// <param name="WorkingDirectory">Where the cells run, an absolute path.</param>
/// <param name="LogFolder">The log of the run, an absolute path; <see langword="null"/> for the notebook's own default.</param>
internal sealed record RunRequest(IReadOnlyList<RunRequest.Cell> Cells, string WorkingDirectory, string? LogFolder)
{
    /// <summary>One code cell.</summary>
    /// <param name="Number">Its number among the notebook's code cells, from 1.</param>
    /// <param name="Source">Its C#.</param>
    internal sealed record Cell(int Number, string Source);
}

/// <summary>Something that happened while the cells ran.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "event")]
[JsonDerivedType(typeof(CellStarted), "cell-started")]
[JsonDerivedType(typeof(CellPrinted), "cell-printed")]
[JsonDerivedType(typeof(CellDisplayed), "cell-displayed")]
[JsonDerivedType(typeof(CellDisplayUpdated), "cell-display-updated")]
[JsonDerivedType(typeof(CellProgress), "cell-progress")]
[JsonDerivedType(typeof(CellFinished), "cell-finished")]
[JsonDerivedType(typeof(CellFailed), "cell-failed")]
[JsonDerivedType(typeof(LogUnreadable), "log-unreadable")]
[JsonDerivedType(typeof(RunFinished), "run-finished")]
internal abstract record HostEvent;

/// <summary>A cell has begun.</summary>
internal sealed record CellStarted(int Number) : HostEvent;

/// <summary>A cell wrote to standard output or standard error.</summary>
internal sealed record CellPrinted(int Number, bool IsError, string Text) : HostEvent;

/// <summary>A cell showed a value.</summary>
/// <param name="Number">The cell.</param>
/// <param name="IsResult">Whether it is the value of the cell's last expression.</param>
/// <param name="DisplayId">By which the value may be updated; <see langword="null"/> if it may not.</param>
/// <param name="Data">The value by MIME type.</param>
internal sealed record CellDisplayed(int Number, bool IsResult, string? DisplayId, IReadOnlyDictionary<string, string> Data) : HostEvent;

/// <summary>A value shown earlier has changed.</summary>
internal sealed record CellDisplayUpdated(int Number, string DisplayId, IReadOnlyDictionary<string, string> Data) : HostEvent;

/// <summary>How far long work within a cell has come.</summary>
/// <param name="Number">The cell.</param>
/// <param name="Doing">What is being done, in a few words.</param>
/// <param name="Share">The share of it that is done, from 0 to 1; <see langword="null"/> where that is not known.</param>
internal sealed record CellProgress(int Number, string Doing, double? Share) : HostEvent;

/// <summary>A cell has ended well.</summary>
internal sealed record CellFinished(int Number) : HostEvent;

/// <summary>A cell has failed; no further cell runs.</summary>
/// <param name="Number">The cell.</param>
/// <param name="Line">The line of its source, from 1; <see langword="null"/> if the error has none.</param>
/// <param name="Error">The kind of error: an exception's type or a compiler's code.</param>
/// <param name="Message">What went wrong, on one line or more.</param>
internal sealed record CellFailed(int Number, int? Line, string Error, string Message) : HostEvent;

/// <summary>The log can't be read at all; no cell runs.</summary>
/// <param name="Message">Where, what was found, and what would be right.</param>
internal sealed record LogUnreadable(string Message) : HostEvent;

/// <summary>All cells have ended well.</summary>
internal sealed record RunFinished : HostEvent;

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(RunRequest))]
[JsonSerializable(typeof(HostEvent))]
internal sealed partial class HostJson : JsonSerializerContext;
