using System.Numerics;

namespace TastingKit.Reading;

/// <summary>Lines of a file, a bit each: a file of scraps has a report or more a line.</summary>
internal sealed class LineSet
{
    private const int BitsAWord = 64;

    private ulong[] _words = [];

    /// <summary>How many there are.</summary>
    public int Count { get; private set; }

    /// <summary>Adds a line.</summary>
    public void Add(int line)
    {
        var word = line / BitsAWord;
        if (word >= _words.Length)
            Array.Resize(ref _words, Math.Max(word + 1, 2 * _words.Length));
        var bit = 1UL << (line % BitsAWord);
        if ((_words[word] & bit) != 0)
            return;
        _words[word] |= bit;
        Count++;
    }

    /// <summary>Whether a line is there.</summary>
    public bool Contains(int line) => line / BitsAWord < _words.Length && (_words[line / BitsAWord] & (1UL << (line % BitsAWord))) != 0;

    /// <summary>Adds the lines of another set.</summary>
    public void UnionWith(LineSet other) => Combine(other, (own, others) => own | others);

    /// <summary>Takes out the lines of another set.</summary>
    public void ExceptWith(LineSet other) => Combine(other, (own, others) => own & ~others);

    /// <summary>Takes out all lines.</summary>
    public void Clear()
    {
        Array.Clear(_words);
        Count = 0;
    }

    private void Combine(LineSet other, Func<ulong, ulong, ulong> combined)
    {
        if (other.Count == 0)
            return;
        if (_words.Length < other._words.Length)
            Array.Resize(ref _words, other._words.Length);
        Count = 0;
        for (var i = 0; i < _words.Length; i++)
        {
            _words[i] = combined(_words[i], i < other._words.Length ? other._words[i] : 0);
            Count += BitOperations.PopCount(_words[i]);
        }
    }
}
