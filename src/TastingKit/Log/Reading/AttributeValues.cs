using System.Collections;
using System.Diagnostics.CodeAnalysis;

namespace TastingKit.Reading;

/// <summary>The attributes scored in one cup: a look at its place among those of the log, made where a dictionary is asked for.</summary>
/// <param name="room">Where it stands.</param>
/// <param name="start">Where it begins there.</param>
internal sealed class AttributeValues(AttributeRoom room, int start) : IReadOnlyDictionary<TastingAttribute, double>
{
    public AttributeRoom Room => room;

    public int Start => start;

    public int Count
    {
        get
        {
            var count = 0;
            foreach (var value in room.At(start))
            {
                if (!double.IsNaN(value))
                    count++;
            }

            return count;
        }
    }

    public IEnumerable<TastingAttribute> Keys => this.Select(pair => pair.Key);

    IEnumerable<double> IReadOnlyDictionary<TastingAttribute, double>.Values => this.Select(pair => pair.Value);

    public double this[TastingAttribute key] =>
        TryGetValue(key, out var value) ? value : throw new KeyNotFoundException($"The cup has no value for {key}.");

    public bool ContainsKey(TastingAttribute key) => TryGetValue(key, out _);

    public bool TryGetValue(TastingAttribute key, [MaybeNullWhen(false)] out double value)
    {
        value = room.ValueAt(start, key);
        return !double.IsNaN(value);
    }

    public IEnumerator<KeyValuePair<TastingAttribute, double>> GetEnumerator()
    {
        for (var i = 0; i < room.Names.Length; i++)
        {
            if (room.At(start)[i] is var value && !double.IsNaN(value))
                yield return KeyValuePair.Create(room.Names[i], value);
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
