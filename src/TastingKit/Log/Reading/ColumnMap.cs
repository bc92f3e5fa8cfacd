namespace TastingKit.Reading;

/// <summary>The user's own headers, as <c>columns.csv</c> states them: in which file, what is written, which column it means.</summary>
internal sealed class ColumnMap
{
    private readonly Dictionary<(string File, string Written), string> _meanings = [];

    /// <summary>Adds a header. The first statement on a header holds.</summary>
    /// <returns>Whether the header was not stated before.</returns>
    public bool Add(string file, string written, string means) => _meanings.TryAdd((FileKey(file), Words.Folded(written)), means);

    /// <summary>The column that a header means, if the map says so.</summary>
    public string? Meaning(string file, string written) =>
        _meanings.Count == 0 ? null : _meanings.GetValueOrDefault((FileKey(file), Words.Folded(written)));

    private static string FileKey(string file) => Words.Folded(Path.GetFileNameWithoutExtension(file));
}
