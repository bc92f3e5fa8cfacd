using System.Collections;
using System.Diagnostics.CodeAnalysis;

namespace TastingKit.Reading;

/// <summary>
/// The attributes scored in one cup: the names, shared by all cups of a log, and one number a name, NaN where it was not scored.
/// A dictionary a cup would take several times the room; the numbers of some hundred cups stand in one array.
/// </summary>
internal sealed class AttributeValues : IReadOnlyDictionary<TastingAttribute, double>
{
    private readonly TastingAttribute[] _attributes;
    private readonly double[] _values;
    private readonly int _start;

    private AttributeValues(TastingAttribute[] attributes, double[] values, int start) => (_attributes, _values, _start) = (attributes, values, start);

    public int Count
    {
        get
        {
            var count = 0;
            foreach (var value in Values())
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
        var place = PlaceOf(key);
        value = place < 0 ? double.NaN : _values[_start + place];
        return !double.IsNaN(value);
    }

    public IEnumerator<KeyValuePair<TastingAttribute, double>> GetEnumerator()
    {
        for (var i = 0; i < _attributes.Length; i++)
        {
            if (!double.IsNaN(_values[_start + i]))
                yield return KeyValuePair.Create(_attributes[i], _values[_start + i]);
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    /// <summary>Whether a value stands under a name under which none stood in the cups asked before.</summary>
    /// <param name="met">What those had, as this method left it.</param>
    public bool HasNewName(ref (TastingAttribute[]? Names, ulong Met) met)
    {
        if (_attributes.Length > 64)
            return true;
        if (met.Names != _attributes)
            met = (_attributes, 0);
        var before = met.Met;
        var values = Values();
        for (var i = 0; i < values.Length; i++)
        {
            if (!double.IsNaN(values[i]))
                met.Met |= 1UL << i;
        }

        return met.Met != before;
    }

    private int PlaceOf(TastingAttribute key)
    {
        // Nearly always the object itself is asked for, which is found before any letter is compared.
        for (var i = 0; i < _attributes.Length; i++)
        {
            if (ReferenceEquals(_attributes[i], key))
                return i;
        }

        return Array.IndexOf(_attributes, key);
    }

    private ReadOnlySpan<double> Values() => _values.AsSpan(_start, _attributes.Length);

    /// <summary>Makes the values of one cup after the other, and gives them room together.</summary>
    internal sealed class Maker(TastingAttribute[] attributes)
    {
        private const int CupsARoom = 256;

        private double[] _room = [];
        private int _next;

        /// <summary>The values of a cup: one number an attribute, NaN for none.</summary>
        public AttributeValues Make(ReadOnlySpan<double> values)
        {
            if (_next == _room.Length)
                (_room, _next) = (new double[CupsARoom * attributes.Length], 0);
            values.CopyTo(_room.AsSpan(_next));
            _next += attributes.Length;
            return new AttributeValues(attributes, _room, _next - attributes.Length);
        }
    }
}
