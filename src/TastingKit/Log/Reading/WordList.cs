using System.Text;

namespace TastingKit.Reading;

/// <summary>The words a column takes, each with the other ways it is written.</summary>
internal sealed class WordList<T>
    where T : notnull
{
    private readonly Dictionary<string, T> _meanings = new(StringComparer.Ordinal);
    private readonly string _expected;

    /// <summary>Makes a list. The first writing of each meaning is the canonical one.</summary>
    public WordList(params (T Meaning, string[] Written)[] words)
    {
        foreach (var (meaning, written) in words)
        {
            foreach (var word in written)
                _meanings.Add(Words.Folded(word), meaning);
        }

        _expected = $"one of {string.Join(", ", words.Select(word => word.Written[0]))}, or an empty cell";
    }

    /// <summary>Reads a word; case, spaces and hyphens don't count.</summary>
    public Judged<T> Judge(Cell cell) => Judge(cell.Utf8);

    /// <summary>Reads a word; case, spaces and hyphens don't count.</summary>
    public Judged<T> Judge(ReadOnlySpan<byte> utf8)
    {
        const int LongestWord = 64;
        if (utf8.Length <= LongestWord && _meanings.TryGetValue(Words.Folded(Encoding.UTF8.GetString(utf8)), out var meaning))
            return meaning;
        return new CellFault(Rule.UnknownWord, "The column takes a closed list of words, and this is none of them; the cell was left missing.", _expected);
    }
}
