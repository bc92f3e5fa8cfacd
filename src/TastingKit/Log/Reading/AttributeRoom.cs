namespace TastingKit.Reading;

/// <summary>
/// The attributes scored in the cups of a log: the names, shared by all, and one number a name and cup, NaN where it was not scored. A dictionary a
/// cup would take several times the room; the numbers of some hundred cups stand in one array.
/// </summary>
/// <param name="names">The names.</param>
/// <param name="values">The numbers of one cup after the other.</param>
internal sealed class AttributeRoom(TastingAttribute[] names, double[] values)
{
    /// <summary>The names.</summary>
    public TastingAttribute[] Names => names;

    /// <summary>The numbers of the cup that begins at a place, one a name.</summary>
    public ReadOnlySpan<double> At(int start) => values.AsSpan(start, names.Length);

    /// <summary>The number under a name of the cup that begins at a place; NaN where there is none.</summary>
    public double ValueAt(int start, TastingAttribute name)
    {
        // Nearly always the object itself is asked for, which is found before any letter is compared.
        for (var i = 0; i < names.Length; i++)
        {
            if (ReferenceEquals(names[i], name))
                return values[start + i];
        }

        var place = Array.IndexOf(names, name);
        return place < 0 ? double.NaN : values[start + place];
    }

    /// <summary>Whether a cup has a value under a name under which none stood in the cups asked before.</summary>
    /// <param name="start">Where the cup begins.</param>
    /// <param name="met">What those had, as this method left it.</param>
    public bool HasNewName(int start, ref (TastingAttribute[]? Names, ulong Met) met)
    {
        if (names.Length > 64)
            return true;
        if (met.Names != names)
            met = (names, 0);
        var before = met.Met;
        var own = At(start);
        for (var i = 0; i < own.Length; i++)
        {
            if (!double.IsNaN(own[i]))
                met.Met |= 1UL << i;
        }

        return met.Met != before;
    }

    /// <summary>Makes room for the values of one cup after the other.</summary>
    internal sealed class Maker(TastingAttribute[] attributes)
    {
        private const int CupsARoom = 256;

        private double[] _values = [];
        private AttributeRoom _room = new(attributes, []);
        private int _next;

        /// <summary>Where the values of a cup stand now.</summary>
        /// <param name="values">One number an attribute, NaN for none.</param>
        public (AttributeRoom Room, int Start) Keep(ReadOnlySpan<double> values)
        {
            if (_next == _values.Length)
            {
                (_values, _next) = (new double[CupsARoom * attributes.Length], 0);
                _room = new AttributeRoom(attributes, _values);
            }

            values.CopyTo(_values.AsSpan(_next));
            _next += attributes.Length;
            return (_room, _next - attributes.Length);
        }
    }
}
