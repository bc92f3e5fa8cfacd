using System.Collections;
using System.Diagnostics.CodeAnalysis;

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

        private readonly Dictionary<KeyValuePair<string, string>[], WrittenTexts> _kept = new(new SameTexts());

        /// <summary>The texts of a row.</summary>
        public IReadOnlyDictionary<string, string> Make(List<KeyValuePair<string, string>> texts)
        {
            if (texts.Count == 0)
                return EmptyColumns.Instance;
            KeyValuePair<string, string>[] key = [.. texts];
            if (_kept.TryGetValue(key, out var kept))
                return kept;
            kept = new WrittenTexts(key);
            if (_kept.Count < MostKept)
                _kept.Add(key, kept);
            return kept;
        }
    }

    private sealed class SameTexts : IEqualityComparer<KeyValuePair<string, string>[]>
    {
        public bool Equals(KeyValuePair<string, string>[]? x, KeyValuePair<string, string>[]? y) => x.AsSpan().SequenceEqual(y);

        public int GetHashCode(KeyValuePair<string, string>[] texts)
        {
            var hash = new HashCode();
            foreach (var (column, text) in texts)
            {
                hash.Add(column);
                hash.Add(text);
            }

            return hash.ToHashCode();
        }
    }
}
