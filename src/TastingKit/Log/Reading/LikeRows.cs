namespace TastingKit.Reading;

/// <summary>
/// Finds rows that say the same as an earlier one in all but their identifier. They are worth knowing and no fault: a cup can be scored alike twice.
/// </summary>
/// <remarks>Hashes are kept as they come, each in the first free place from where it belongs: one look at memory a row, where a dictionary takes three.</remarks>
internal sealed class LikeRows
{
    private (ulong Content, int Line)[] _places = new (ulong, int)[64];
    private int _count;

    /// <summary>Makes room for rows.</summary>
    public void Expect(int rows) => Grow((long)rows * 2);

    /// <summary>
    /// Told of rows that are reported soon: the places of some hundred are fetched together, and each is at hand when its turn comes, where to
    /// wait for one after the other would take longer than all else that is done with a row.
    /// </summary>
    /// <returns>Whether its first place is taken.</returns>
    public bool Soon(ulong content) => _places[(int)content & (_places.Length - 1)].Line != 0;

    /// <summary>Reports a row whose content was met before.</summary>
    public void Report(RowReports reports)
    {
        if (2 * _count >= _places.Length)
            Grow(2L * _places.Length);
        ref var place = ref PlaceOf(reports.Content);
        if (place.Line == 0)
        {
            place = (reports.Content, reports.Line);
            _count++;
            return;
        }

        reports.Row(Severity.Information, "", new CellFault(Rule.RepeatedRow,
            FormattableString.Invariant($"It says the same as line {place.Line}, the identifier left out."), "nothing, if it is no copy"));
    }

    private ref (ulong Content, int Line) PlaceOf(ulong content)
    {
        var mask = _places.Length - 1;
        var at = (int)content & mask;
        // A line is never 0: that is a free place.
        while (_places[at].Line != 0 && _places[at].Content != content)
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
        var before = _places;
        _places = new (ulong, int)[size];
        foreach (var kept in before)
        {
            if (kept.Line != 0)
                PlaceOf(kept.Content) = kept;
        }
    }
}
