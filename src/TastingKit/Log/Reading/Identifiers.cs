using System.Runtime.InteropServices;

namespace TastingKit.Reading;

/// <summary>
/// The identifiers of a file's rows with their lines, each to be met once. Most logs number their rows upwards: as long as each identifier lies
/// above the one before, none can have been met, and nothing is looked up.
/// </summary>
internal sealed class Identifiers
{
    private readonly List<string> _risen = [];
    private readonly List<int> _lines = [];
    private Dictionary<string, int>? _lineOf;

    /// <summary>Makes room for rows.</summary>
    public void Expect(int rows)
    {
        _risen.EnsureCapacity(rows);
        _lines.EnsureCapacity(rows);
    }

    /// <summary>Takes an identifier, unless it was met before.</summary>
    /// <param name="id">The identifier.</param>
    /// <param name="line">Its line.</param>
    /// <param name="first">The line on which it was met before.</param>
    public bool TryAdd(string id, int line, out int first)
    {
        first = line;
        if (_lineOf is null && (_risen.Count == 0 || LiesAbove(id, _risen[^1])))
        {
            _risen.Add(id);
            _lines.Add(line);
            return true;
        }

        ref var kept = ref CollectionsMarshal.GetValueRefOrAddDefault(LookUp(), id, out var isMet);
        if (isMet)
            first = kept;
        else
            kept = line;
        return !isMet;
    }

    /// <summary>Takes back the identifier that was taken last.</summary>
    public void RemoveLast(string id)
    {
        if (_lineOf is not null)
        {
            _lineOf.Remove(id);
            return;
        }

        _risen.RemoveAt(_risen.Count - 1);
        _lines.RemoveAt(_lines.Count - 1);
    }

    /// <summary>
    /// Whether an identifier lies above another: is longer, or as long and later by its letters, as are 10 and 9, or T120 and T119. Of identifiers
    /// each of which lies above the one before, no two are the same.
    /// </summary>
    public static bool LiesAbove(string id, string before) =>
        id.Length > before.Length || (id.Length == before.Length && string.CompareOrdinal(id, before) > 0);

    private Dictionary<string, int> LookUp()
    {
        if (_lineOf is not null)
            return _lineOf;
        _lineOf = new Dictionary<string, int>(_risen.Capacity, StringComparer.Ordinal);
        for (var i = 0; i < _risen.Count; i++)
            _lineOf.Add(_risen[i], _lines[i]);
        _risen.Clear();
        _risen.Capacity = 0;
        return _lineOf;
    }
}
