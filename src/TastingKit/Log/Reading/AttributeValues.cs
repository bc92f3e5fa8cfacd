using System.Collections;
using System.Diagnostics.CodeAnalysis;

namespace TastingKit.Reading;

/// <summary>
/// The attributes scored in one cup: the names, shared by all cups of a log, and one number a name, NaN where it was not scored.
/// A dictionary a cup would take several times the room.
/// </summary>
internal sealed class AttributeValues(TastingAttribute[] attributes, double[] values) : IReadOnlyDictionary<TastingAttribute, double>
{
    public int Count => values.Count(value => !double.IsNaN(value));

    public IEnumerable<TastingAttribute> Keys => this.Select(pair => pair.Key);

    public IEnumerable<double> Values => this.Select(pair => pair.Value);

    public double this[TastingAttribute key] =>
        TryGetValue(key, out var value) ? value : throw new KeyNotFoundException($"The cup has no value for {key}.");

    public bool ContainsKey(TastingAttribute key) => TryGetValue(key, out _);

    public bool TryGetValue(TastingAttribute key, [MaybeNullWhen(false)] out double value)
    {
        for (var i = 0; i < attributes.Length; i++)
        {
            if (attributes[i].Equals(key))
            {
                value = values[i];
                return !double.IsNaN(value);
            }
        }

        value = default;
        return false;
    }

    public IEnumerator<KeyValuePair<TastingAttribute, double>> GetEnumerator()
    {
        for (var i = 0; i < attributes.Length; i++)
        {
            if (!double.IsNaN(values[i]))
                yield return KeyValuePair.Create(attributes[i], values[i]);
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
