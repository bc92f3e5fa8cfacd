using System.Collections;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>What is written in some columns of a row, by their canonical names: hardly ever more than three, so that looking through them is quick.</summary>
internal sealed class WrittenTexts(KeyValuePair<string, string>[] texts) : IReadOnlyDictionary<string, string>
{
    public int Count => texts.Length;

    public IEnumerable<string> Keys => texts.Select(pair => pair.Key);

    public IEnumerable<string> Values => texts.Select(pair => pair.Value);

    public string this[string key] => TryGetValue(key, out var value) ? value : throw new KeyNotFoundException($"Nothing was converted in {key}.");

    public bool ContainsKey(string key) => TryGetValue(key, out _);

    public bool TryGetValue(string key, [MaybeNullWhen(false)] out string value)
    {
        foreach (var (column, text) in texts)
        {
            if (column == key)
            {
                value = text;
                return true;
            }
        }

        value = null;
        return false;
    }

    public IEnumerator<KeyValuePair<string, string>> GetEnumerator() => texts.AsEnumerable().GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    /// <summary>Makes one for all rows that write the same, as long as there are not too many.</summary>
    internal sealed class Maker
    {
        private const int MostKept = 4096;

        private readonly Dictionary<KeyValuePair<string, string>[], WrittenTexts>.AlternateLookup<ReadOnlySpan<KeyValuePair<string, string>>> _kept =
            new Dictionary<KeyValuePair<string, string>[], WrittenTexts>(new SameTexts()).GetAlternateLookup<ReadOnlySpan<KeyValuePair<string, string>>>();

        /// <summary>The texts of a row.</summary>
        public IReadOnlyDictionary<string, string> Make(ReadOnlySpan<KeyValuePair<string, string>> texts)
        {
            if (texts.IsEmpty)
                return EmptyColumns.Instance;
            if (_kept.TryGetValue(texts, out var kept))
                return kept;
            KeyValuePair<string, string>[] own = [.. texts];
            kept = new WrittenTexts(own);
            if (_kept.Dictionary.Count < MostKept)
                _kept.Dictionary.Add(own, kept);
            return kept;
        }
    }

    /// <summary>Cells that say the same share their text mostly, so that the object tells it; of others one more is kept.</summary>
    private sealed class SameTexts
        : IEqualityComparer<KeyValuePair<string, string>[]>, IAlternateEqualityComparer<ReadOnlySpan<KeyValuePair<string, string>>, KeyValuePair<string, string>[]>
    {
        public bool Equals(KeyValuePair<string, string>[]? x, KeyValuePair<string, string>[]? y) => Equals(x.AsSpan(), y!);

        public int GetHashCode(KeyValuePair<string, string>[] texts) => GetHashCode(texts.AsSpan());

        public bool Equals(ReadOnlySpan<KeyValuePair<string, string>> alternate, KeyValuePair<string, string>[] other)
        {
            if (alternate.Length != other.Length)
                return false;
            for (var i = 0; i < other.Length; i++)
            {
                if (!ReferenceEquals(alternate[i].Key, other[i].Key) || !ReferenceEquals(alternate[i].Value, other[i].Value))
                    return false;
            }

            return true;
        }

        public int GetHashCode(ReadOnlySpan<KeyValuePair<string, string>> alternate)
        {
            var hash = 0;
            foreach (var (column, text) in alternate)
                hash = (hash * 31 + RuntimeHelpers.GetHashCode(column)) * 31 + RuntimeHelpers.GetHashCode(text);
            return hash;
        }

        public KeyValuePair<string, string>[] Create(ReadOnlySpan<KeyValuePair<string, string>> alternate) => [.. alternate];
    }
}
