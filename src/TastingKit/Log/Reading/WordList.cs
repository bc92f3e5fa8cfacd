using System.Text;

namespace TastingKit.Reading;

/// <summary>The words a column takes, each with the other ways it is written.</summary>
internal sealed class WordList<T>
    where T : notnull
{
    private const int LongestWord = 64;

    private readonly Dictionary<string, T> _meanings = new(StringComparer.Ordinal);
    private readonly Dictionary<string, T>.AlternateLookup<ReadOnlySpan<char>> _asWritten;
    private readonly Dictionary<T, string> _canonical = [];
    private readonly string _expected;

    /// <summary>Makes a list. The first writing of each meaning is the canonical one.</summary>
    public WordList(params (T Meaning, string[] Written)[] words)
    {
        var asWritten = new Dictionary<string, T>(StringComparer.OrdinalIgnoreCase);
        foreach (var (meaning, written) in words)
        {
            _canonical.Add(meaning, written[0]);
            foreach (var word in written)
            {
                asWritten.Add(word, meaning);
                _meanings.TryAdd(Words.Folded(word), meaning);
            }
        }

        _asWritten = asWritten.GetAlternateLookup<ReadOnlySpan<char>>();

        _expected = $"one of {string.Join(", ", words.Select(word => word.Written[0]))}, or an empty cell";
    }

    /// <summary>Whether a word is the canonical one of its meaning, letter for letter.</summary>
    public bool IsOwn(Cell cell, T meaning) => IsOwn(cell.Utf8, meaning);

    /// <summary>Whether a word is the canonical one of its meaning, letter for letter.</summary>
    public bool IsOwn(ReadOnlySpan<byte> utf8, T meaning) => Encoding.UTF8.GetString(utf8) == _canonical[meaning];

    /// <summary>Reads a word; case, spaces and hyphens don't count.</summary>
    public Judged<T> Judge(Cell cell) => Judge(cell.Utf8);

    /// <summary>Reads a word; case, spaces and hyphens don't count.</summary>
    public Judged<T> Judge(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length <= LongestWord)
        {
            Span<char> buffer = stackalloc char[LongestWord];
            var text = buffer[..Encoding.UTF8.GetChars(utf8, buffer)];
            if (_asWritten.TryGetValue(text, out var meaning) || _meanings.TryGetValue(Words.Folded(text.ToString()), out meaning))
                return meaning;
        }

        return new CellFault(Rule.UnknownWord, "The column takes a closed list of words, and this is none of them; the cell was left missing.", _expected);
    }
}
