using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>Lists of words in the vocabulary's form, one for all rows that share a list as written.</summary>
internal sealed class OtherWords
{
    private const int MostKept = 4096;

    private readonly Dictionary<IReadOnlyList<string>, (IReadOnlyList<string> Canonical, string Written)> _kept = new(new SameList());

    /// <summary>The words in the vocabulary's form and what is written in their cell.</summary>
    /// <param name="written">The words as written.</param>
    /// <param name="canonical">The same in the vocabulary's form.</param>
    public (IReadOnlyList<string> Canonical, string Written) Shared(IReadOnlyList<string> written, IReadOnlyList<string> canonical)
    {
        if (_kept.TryGetValue(written, out var kept))
            return kept;
        kept = (canonical, string.Join("; ", written));
        if (_kept.Count < MostKept)
            _kept.Add(written, kept);
        return kept;
    }

    /// <summary>Cells that say the same share their list mostly; of others one more is kept.</summary>
    private sealed class SameList : IEqualityComparer<IReadOnlyList<string>>
    {
        public bool Equals(IReadOnlyList<string>? x, IReadOnlyList<string>? y) => ReferenceEquals(x, y);

        public int GetHashCode(IReadOnlyList<string> list) => RuntimeHelpers.GetHashCode(list);
    }
}
