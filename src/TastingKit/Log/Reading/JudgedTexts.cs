using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>
/// Short texts of one column with the value each was judged to have. Most columns of a log hold a few dozen texts over and over: to find one
/// again takes a tenth of judging it. Only a text without anything to report belongs here, since a report is made for every row.
/// </summary>
/// <remarks>Where hardly any text is met again, nothing more is kept; where there are very many, a new one takes the place of another.</remarks>
internal sealed class JudgedTexts<T>
{
    private const int Fewest = 64;
    private const int Most = 16384;
    private const int Neighbours = 8;
    private const int Longest = 48;
    private const int Trial = 16384;

    private Entry[] _entries = [];
    private int _count;
    private int _asked;
    private int _found;
    private bool _isGivenUp;

    /// <summary>The value of a text that is not empty, where it is known.</summary>
    public bool TryGet(in Cell cell, out T value)
    {
        if (_count > 0 && !_isGivenUp && cell.Utf8.Length <= Longest)
        {
            _asked++;
            ref var entry = ref _entries[PlaceOf(cell.Utf8, cell.Hash, out var isHeld)];
            if (isHeld)
            {
                _found++;
                value = entry.Value;
                return true;
            }

            if (_asked == Trial)
            {
                _isGivenUp = _found < Trial / 4;
                (_asked, _found) = (0, 0);
            }
        }

        value = default!;
        return false;
    }

    /// <summary>Keeps the value of a text that is not empty.</summary>
    public void Add(in Cell cell, T value)
    {
        if (!_isGivenUp && cell.Utf8.Length <= Longest)
            Add(cell.Utf8, cell.Hash, value);
    }

    private void Add(ReadOnlySpan<byte> text, ulong hash, T value)
    {
        if (2 * _count >= _entries.Length && _entries.Length < Most)
            Grow();
        ref var entry = ref _entries[PlaceOf(text, hash, out _)];
        if (entry.Length == 0)
            _count++;
        (entry.Length, entry.Hash, entry.Value) = (text.Length, hash, value);
        text.CopyTo(entry.Text);
    }

    /// <summary>The place that holds the text, or else where it belongs: a free one near by, or that of another text.</summary>
    private int PlaceOf(ReadOnlySpan<byte> text, ulong hash, out bool isHeld)
    {
        var mask = _entries.Length - 1;
        var first = (int)hash & mask;
        for (var step = 0; step < Neighbours; step++)
        {
            ref var entry = ref _entries[(first + step) & mask];
            isHeld = entry.Holds(text, hash);
            if (isHeld || entry.Length == 0)
                return (first + step) & mask;
        }

        isHeld = false;
        return first;
    }

    private void Grow()
    {
        var before = _entries;
        _entries = new Entry[Math.Max(Fewest, 2 * before.Length)];
        _count = 0;
        foreach (ref var old in before.AsSpan())
        {
            if (old.Length > 0)
                Add(((ReadOnlySpan<byte>)old.Text)[..old.Length], old.Hash, old.Value);
        }
    }

    [InlineArray(Longest)]
    private struct Bytes
    {
        private byte _first;
    }

    private struct Entry
    {
        public int Length;
        public ulong Hash;
        public T Value;
        public Bytes Text;

        public readonly bool Holds(ReadOnlySpan<byte> text, ulong hash) => Hash == hash && Length == text.Length && text.SequenceEqual(((ReadOnlySpan<byte>)Text)[..text.Length]);
    }
}
