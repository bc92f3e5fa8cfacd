namespace TastingKit.Reading;

/// <summary>Lists of words in the vocabulary's form, looked up once for all rows that share a list as written.</summary>
internal sealed class OtherWords
{
    private const int MostKept = 4096;

    private readonly List<ReadWords> _kept = [];

    /// <summary>The words in the vocabulary's form, and what is written in their cell where that is another; <see cref="CountUses"/> has each word count as used once more.</summary>
    /// <param name="written">The words as written.</param>
    /// <param name="words">The words of the column.</param>
    /// <param name="line">Their line.</param>
    public (IReadOnlyList<string> Canonical, string? Written) Of(IReadOnlyList<string> written, KnownWords.OfColumn words, int line)
    {
        var list = written as ReadWords;
        if (list?.Canonical is { } known)
        {
            list.Uses++;
            return (known, list.Written);
        }

        var canonical = CanonicalWords.Many(written, words, line);
        var asWritten = ReferenceEquals(canonical, written) ? null : string.Join("; ", written);
        if (list is not null && _kept.Count < MostKept)
        {
            list.Keep(canonical, asWritten, [.. written.Select(word => words.Met(word, line))]);
            _kept.Add(list);
        }

        return (canonical, asWritten);
    }

    /// <summary>Counts the words as often as their lists were met, once all are, and lets go of what was known of the lists.</summary>
    public void CountUses()
    {
        foreach (var list in _kept)
        {
            foreach (var word in list.InColumn)
                word.Uses += list.Uses;
            list.Forget();
        }

        _kept.Clear();
    }
}
