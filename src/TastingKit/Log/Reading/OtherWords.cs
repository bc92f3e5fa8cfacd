using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>Lists of words in the vocabulary's form, looked up once for all rows that share a list as written.</summary>
internal sealed class OtherWords
{
    private const int MostKept = 4096;

    private readonly Dictionary<IReadOnlyList<string>, Known> _kept = new(new SameList());

    /// <summary>The words in the vocabulary's form, and what is written in their cell where that is another; each word counts as used once more.</summary>
    /// <param name="written">The words as written.</param>
    /// <param name="words">The words of the column.</param>
    /// <param name="line">Their line.</param>
    public (IReadOnlyList<string> Canonical, string? Written) Of(IReadOnlyList<string> written, KnownWords.OfColumn words, int line)
    {
        if (_kept.TryGetValue(written, out var known))
        {
            foreach (var word in known.Words)
                word.Uses++;
            return (known.Canonical, known.Written);
        }

        var canonical = CanonicalWords.Many(written, words, line);
        known = new Known([.. written.Select(word => words.Met(word, line))], canonical, ReferenceEquals(canonical, written) ? null : string.Join("; ", written));
        if (_kept.Count < MostKept)
            _kept.Add(written, known);
        return (known.Canonical, known.Written);
    }

    private sealed record Known(KnownWords.OfColumn.Word[] Words, IReadOnlyList<string> Canonical, string? Written);

    /// <summary>Cells that say the same share their list mostly; of others one more is kept.</summary>
    private sealed class SameList : IEqualityComparer<IReadOnlyList<string>>
    {
        public bool Equals(IReadOnlyList<string>? x, IReadOnlyList<string>? y) => ReferenceEquals(x, y);

        public int GetHashCode(IReadOnlyList<string> list) => RuntimeHelpers.GetHashCode(list);
    }
}
