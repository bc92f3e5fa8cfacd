using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>Takes the rows of a file in their order, with the reports on them, whether they were judged ahead or not.</summary>
/// <param name="table">The table, which gets the rows.</param>
/// <param name="judge">Judges the rows that were not judged ahead.</param>
/// <param name="length">The length of the file's text.</param>
/// <param name="cancellation">Ends the taking.</param>
internal sealed class RowTaking<TRow>(Table<TRow> table, RowJudge<TRow> judge, int length, CancellationToken cancellation)
{
    private const int RecordsBetweenTells = 4096;

    private readonly FileReports _reports = judge.Reports.File;
    private TRow? _row;
    private bool _isMade;
    private int _untold;

    /// <summary>Judges and takes all rows that a reader has.</summary>
    /// <param name="records">Stands before the first of them.</param>
    /// <param name="before">How much of the text lies before what it reads.</param>
    public void TakeAll(RecordReader records, int before = 0)
    {
        cancellation.ThrowIfCancellationRequested();
        while (records.Read())
        {
            Tell(1, before + records.Offset);
            if (RowJudge<TRow>.IsBlank(records))
                continue;
            _reports.CountRow();
            JudgeAndTake(records);
        }

        cancellation.ThrowIfCancellationRequested();
    }

    /// <summary>Takes rows as long as it is worth while to have them judged ahead.</summary>
    /// <returns>Where the rows go on that were not taken; <see langword="null"/> where all that were judged ahead are.</returns>
    // Called for a stretch of rows: a million rows are too few calls for the runtime to compile it again with care, and too many steps to go without.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public (int Offset, int Line)? TakeAhead(JudgedAhead<TRow> ahead, Func<Stretch, RecordReader> open)
    {
        while (ahead.Next() is { } stretch)
        {
            cancellation.ThrowIfCancellationRequested();
            RecordReader? again = null;
            var count = 0;
            foreach (var row in stretch.Rows)
            {
                count++;
                _reports.CountRow();
                if (!row.IsAgain)
                {
                    table.End(row.Row, row.Reports);
                    continue;
                }

                again ??= open(stretch.Place);
                do
                    again.Read();
                while (again.Offset < row.Offset);
                JudgeAndTake(again);
            }

            again?.Dispose();
            Tell(count, stretch.Place.End);
            if (stretch.IsMostlyAgain)
                return (stretch.Place.End, stretch.Place.LineAfter);
        }

        return null;
    }

    private void JudgeAndTake(RecordReader records)
    {
        if (!_isMade || table.Clear is null)
            (_row, _isMade) = (table.Begin(), true);
        else
            table.Clear(_row!);
        if (judge.Judge(records, _row!))
            table.End(_row!, judge.Reports);
        else
            table.NotWhole?.Invoke(judge.Reports);
    }

    private void Tell(int records, int offset)
    {
        _untold += records;
        if (_untold < RecordsBetweenTells)
            return;
        _untold = 0;
        cancellation.ThrowIfCancellationRequested();
        _reports.Progress?.Report(offset / (double)Math.Max(1, length));
    }
}
