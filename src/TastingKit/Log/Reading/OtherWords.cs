using System.Collections.ObjectModel;
using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>
/// What cups say in other words than the vocabulary's, and the vocabulary's notes for them: cups that write the same share one of each.
/// </summary>
internal sealed class OtherWords
{
    private const int MostKept = 4096;

    private readonly Dictionary<(string? Brewer, IReadOnlyList<string> Notes, string? Guess), (IReadOnlyList<string> Notes, IReadOnlyDictionary<string, string> AsWritten)> _kept = new(new SameTexts());

    /// <summary>The notes in the vocabulary's words, and what is written in those columns where words were changed.</summary>
    /// <param name="row">The row as written.</param>
    /// <param name="brewer">Its brewer in the vocabulary's word.</param>
    /// <param name="notes">Its notes in the vocabulary's words.</param>
    /// <param name="guess">Its guessed process in the vocabulary's word.</param>
    public (IReadOnlyList<string> Notes, IReadOnlyDictionary<string, string> AsWritten) Shared(
        TastingRow row, string? brewer, IReadOnlyList<string> notes, string? guess)
    {
        var key = (row.Brewer, row.Notes, row.GuessedProcess);
        if (_kept.TryGetValue(key, out var kept))
            return kept;
        var written = new Dictionary<string, string>(StringComparer.Ordinal);
        if (!ReferenceEquals(brewer, row.Brewer))
            written.Add("brewer", row.Brewer!);
        if (!ReferenceEquals(notes, row.Notes))
            written.Add("notes", string.Join("; ", row.Notes));
        if (!ReferenceEquals(guess, row.GuessedProcess))
            written.Add("guess_process", row.GuessedProcess!);
        kept = (notes, new ReadOnlyDictionary<string, string>(written));
        if (_kept.Count < MostKept)
            _kept.Add(key, kept);
        return kept;
    }

    /// <summary>Texts that are met again are the same objects mostly; of others one more is kept.</summary>
    private sealed class SameTexts : IEqualityComparer<(string? Brewer, IReadOnlyList<string> Notes, string? Guess)>
    {
        public bool Equals((string? Brewer, IReadOnlyList<string> Notes, string? Guess) x, (string? Brewer, IReadOnlyList<string> Notes, string? Guess) y) =>
            ReferenceEquals(x.Brewer, y.Brewer) && ReferenceEquals(x.Notes, y.Notes) && ReferenceEquals(x.Guess, y.Guess);

        public int GetHashCode((string? Brewer, IReadOnlyList<string> Notes, string? Guess) key) =>
            HashCode.Combine(RuntimeHelpers.GetHashCode(key.Brewer), RuntimeHelpers.GetHashCode(key.Notes), RuntimeHelpers.GetHashCode(key.Guess));
    }
}
