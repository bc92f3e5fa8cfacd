namespace TastingKit.Reading;

/// <summary>
/// Finds rows that say the same as an earlier one in all but their identifier. They are worth knowing and no fault: a cup can be scored alike twice.
/// </summary>
/// <remarks>
/// What rows say is kept in their order, and found by a table of their numbers, each in the first free place from where it belongs: one look
/// at memory a row, where a dictionary takes three, and at little of it.
/// </remarks>
internal sealed class LikeRows
{
    private readonly List<(ulong Content, int Line)> _rows = [];
    private int[] _places = new int[64];

    /// <summary>Makes room for rows.</summary>
    public void Expect(int rows)
    {
        _rows.EnsureCapacity(rows);
        Grow((long)rows * 2);
    }

    /// <summary>
    /// Told of rows that are reported soon: the places of some hundred are fetched together, and each is at hand when its turn comes, where to
    /// wait for one after the other would take longer than all else that is done with a row.
    /// </summary>
    /// <returns>Whether its first place is taken.</returns>
    public bool Soon(ulong content) => _places[(int)content & (_places.Length - 1)] != 0;

    /// <summary>Reports a row whose content was met before.</summary>
    public void Report(RowReports reports)
    {
        if (2 * _rows.Count >= _places.Length)
            Grow(2L * _places.Length);
        ref var place = ref PlaceOf(reports.Content);
        if (place == 0)
        {
            _rows.Add((reports.Content, reports.Line));
            place = _rows.Count;
            return;
        }

        reports.Row(Severity.Information, "", new CellFault(Rule.RepeatedRow,
            FormattableString.Invariant($"It says the same as line {_rows[place - 1].Line}, the identifier left out."), "nothing, if it is no copy"));
    }

    /// <summary>The place of a row's number, counted from 1; 0 there is a free place.</summary>
    private ref int PlaceOf(ulong content)
    {
        var mask = _places.Length - 1;
        var at = (int)content & mask;
        while (_places[at] != 0 && _rows[_places[at] - 1].Content != content)
            at = (at + 1) & mask;
        return ref _places[at];
    }

    private void Grow(long places)
    {
        var size = (long)_places.Length;
        while (size < places)
            size *= 2;
        if (size == _places.Length)
            return;
        _places = new int[size];
        for (var i = 0; i < _rows.Count; i++)
            PlaceOf(_rows[i].Content) = i + 1;
    }
}
