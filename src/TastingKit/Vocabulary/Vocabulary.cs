using System.Collections.Frozen;
using System.Numerics;
using F23.StringSimilarity;
using TastingKit.Reading;

namespace TastingKit;

/// <summary>
/// The words of the trade in one form each, with the other ways they are written: spellings, plurals, other languages' names of countries.
/// The kit's own lists (<c>processes.csv</c>, <c>countries.csv</c>, <c>brewers.csv</c>, <c>varieties.csv</c>, <c>notes.csv</c> in its folder
/// <c>Vocabulary</c>), and before them what the user's <c>vocabulary.csv</c> says. Immutable.
/// </summary>
/// <remarks>A word that is not known stays as it is. A near miss is suggested and never taken for the word.</remarks>
public sealed class Vocabulary
{
    /// <summary>Letters of the shortest word that a near miss is looked for.</summary>
    private const int ShortestNear = 4;

    /// <summary>Letters from which two slips are still near.</summary>
    private const int LongForNear = 8;

    private const int LongestNear = 60;

    private static readonly OptimalStringAlignment Slips = new();

    private readonly FrozenDictionary<string, string>[] _shipped;
    private readonly FrozenDictionary<string, string>[] _own;
    private readonly FrozenDictionary<string, string> _families;

    private Vocabulary(FrozenDictionary<string, string>[] shipped, FrozenDictionary<string, string> families, IReadOnlyList<VocabularyEntry> own)
    {
        _shipped = shipped;
        _families = families;
        Own = [.. own.DistinctBy(entry => (entry.Kind, Words.Folded(entry.Written)))];
        _own = [.. Enum.GetValues<VocabularyKind>().Select(kind => Forms([.. Own.Where(entry => entry.Kind == kind)]))];
    }

    /// <summary>
    /// What the user's entries on one kind of word make of each word. A form that an entry gives is a known word itself, before the kit's own
    /// spelling of it; one that another entry gives a further form has that one. So a word in its form has no other.
    /// </summary>
    private static FrozenDictionary<string, string> Forms(IReadOnlyList<VocabularyEntry> entries)
    {
        var stated = entries.ToDictionary(entry => Words.Folded(entry.Written), entry => entry.Means, StringComparer.Ordinal);
        var forms = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (word, means) in stated)
        {
            var form = means;
            // As many steps as there are entries: two that mean one another have no end.
            for (var step = 0; step < stated.Count && stated.TryGetValue(Words.Folded(form), out var further); step++)
                form = further;
            forms[word] = form;
        }

        foreach (var form in stated.Values)
            forms.TryAdd(Words.Folded(form), form);
        return forms.ToFrozenDictionary(StringComparer.Ordinal);
    }

    /// <summary>The kit's own words alone.</summary>
    public static Vocabulary Shipped { get; } = ShippedWords.Read((shipped, families) => new Vocabulary(shipped, families, []));

    /// <summary>What the user's vocabulary says, in its order; of two entries on one word the first.</summary>
    public IReadOnlyList<VocabularyEntry> Own { get; }

    /// <summary>This vocabulary with words of the user's own before it. Of two entries on one word the first holds.</summary>
    public Vocabulary With(IReadOnlyList<VocabularyEntry> own)
    {
        ArgumentNullException.ThrowIfNull(own);
        return new Vocabulary(_shipped, _families, [.. own, .. Own]);
    }

    /// <summary>The form of a word that the vocabulary has; the word itself where it is not known.</summary>
    public string Canonical(VocabularyKind kind, string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        return Find(kind, written) ?? written;
    }

    /// <summary>Whether the vocabulary has the word, in this form or another.</summary>
    public bool Knows(VocabularyKind kind, string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        return Find(kind, written) is not null;
    }

    /// <summary>The family of a tasting note, such as <c>citrus</c>; <see langword="null"/> for a note that is not known.</summary>
    public string? FamilyOf(string note)
    {
        ArgumentNullException.ThrowIfNull(note);
        return Find(VocabularyKind.Note, note) is { } known ? _families.GetValueOrDefault(Words.Folded(known)) : null;
    }

    /// <summary>
    /// The known word that an unknown one is nearly: one slip away (a letter more, less, other, or two exchanged), or two from eight letters on.
    /// <see langword="null"/> where there is none, or the word is known.
    /// </summary>
    public string? NearestTo(VocabularyKind kind, string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var folded = Words.Folded(written);
        // Names that end in a number, as many varieties do, are meant to differ in it.
        if (folded.Length is < ShortestNear or > LongestNear || char.IsAsciiDigit(folded[^1]) || Find(kind, written) is not null)
            return null;
        return Nearest(folded, _own[(int)kind]) ?? Nearest(folded, _shipped[(int)kind]);
    }

    /// <summary>Whether two folded words are so near that one may be a slip for the other.</summary>
    internal static bool AreNear(string folded, string other) => SlipsBetween(folded, other) is > 0 and var slips && slips <= Most(folded);

    private static string? Nearest(string folded, FrozenDictionary<string, string> words)
    {
        string? nearest = null;
        string? nearestKey = null;
        var least = double.PositiveInfinity;
        foreach (var (key, means) in words)
        {
            if (key.Length < ShortestNear)
                continue;
            var slips = SlipsBetween(folded, key);
            // Of words as near, the first by its letters, so that the answer does not hang on how the words are kept.
            if (slips <= Most(folded) && (slips < least || (slips == least && string.CompareOrdinal(key, nearestKey) < 0)))
                (nearest, nearestKey, least) = (means, key, slips);
        }

        return nearest;
    }

    private static double SlipsBetween(string folded, string other) =>
        Math.Abs(folded.Length - other.Length) > Most(folded) || BitOperations.PopCount(Letters(folded) ^ Letters(other)) > 2 * Most(folded)
            ? double.PositiveInfinity
            : Slips.Distance(folded, other);

    /// <summary>The letters met in a text as bits, some sharing one. A slip takes one letter away and brings one in at the most.</summary>
    private static ulong Letters(string text)
    {
        var met = 0UL;
        foreach (var letter in text)
            met |= 1UL << (letter & 63);
        return met;
    }

    private static int Most(string folded) => folded.Length >= LongForNear ? 2 : 1;

    private string? Find(VocabularyKind kind, string written)
    {
        var folded = Words.Folded(written);
        if (folded.Length == 0)
            return null;
        return Find(_own[(int)kind], folded, kind) ?? Find(_shipped[(int)kind], folded, kind);
    }

    private static string? Find(FrozenDictionary<string, string> words, string folded, VocabularyKind kind)
    {
        if (words.Count == 0)
            return null;
        if (words.TryGetValue(folded, out var means))
            return means;
        // Only notes are things that one names in the plural.
        if (kind != VocabularyKind.Note || !folded.EndsWith('s'))
            return null;
        return words.GetValueOrDefault(folded[..^1])
            ?? (folded.EndsWith("es", StringComparison.Ordinal) ? words.GetValueOrDefault(folded[..^2]) : null)
            ?? (folded.EndsWith("ies", StringComparison.Ordinal) ? words.GetValueOrDefault(folded[..^3] + "y") : null);
    }
}
