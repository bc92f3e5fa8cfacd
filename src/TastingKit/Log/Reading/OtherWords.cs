using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>Lists of words in the vocabulary's form, looked up once for all rows that share a list as written.</summary>
internal sealed class OtherWords
{
    private const int MostKept = 4096;

    private readonly Dictionary<IReadOnlyList<string>, Known> _kept = new(new SameList());

    /// <summary>The words in the vocabulary's form, and what is written in their cell where that is another; <see cref="CountUses"/> has each word count as used once more.</summary>
    /// <param name="written">The words as written.</param>
    /// <param name="words">The words of the column.</param>
    /// <param name="line">Their line.</param>
    public (IReadOnlyList<string> Canonical, string? Written) Of(IReadOnlyList<string> written, KnownWords.OfColumn words, int line)
    {
        if (_kept.TryGetValue(written, out var known))
        {
            known.Uses++;
            return (known.Canonical, known.Written);
        }

        var canonical = CanonicalWords.Many(written, words, line);
        known = new Known([.. written.Select(word => words.Met(word, line))], canonical, ReferenceEquals(canonical, written) ? null : string.Join("; ", written));
        if (_kept.Count < MostKept)
            _kept.Add(written, known);
        return (known.Canonical, known.Written);
    }

    /// <summary>Counts the words as often as their lists were met, once all are.</summary>
    public void CountUses()
    {
        foreach (var known in _kept.Values)
        {
            foreach (var word in known.Words)
                word.Uses += known.Uses;
            known.Uses = 0;
        }
    }

    private sealed class Known(KnownWords.OfColumn.Word[] words, IReadOnlyList<string> canonical, string? written)
    {
        public KnownWords.OfColumn.Word[] Words => words;

        public IReadOnlyList<string> Canonical => canonical;

        public string? Written => written;

        /// <summary>How often the list was met after the first time.</summary>
        public int Uses { get; set; }
    }

    /// <summary>Cells that say the same share their list mostly; of others one more is kept.</summary>
    private sealed class SameList : IEqualityComparer<IReadOnlyList<string>>
    {
        public bool Equals(IReadOnlyList<string>? x, IReadOnlyList<string>? y) => ReferenceEquals(x, y);

        public int GetHashCode(IReadOnlyList<string> list) => RuntimeHelpers.GetHashCode(list);
    }
}
