using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace TastingKit.Reading;

/// <summary>Room for the rows of a stretch, filled again for later ones.</summary>
/// <param name="begin">Makes a row to fill.</param>
/// <param name="clear">Makes a row that was taken ready to be filled again.</param>
/// <param name="filed">Where reports on the rows go when they are taken.</param>
internal sealed class JudgedStretch<TRow>(Func<TRow> begin, Action<TRow> clear, FileReports filed)
{
    private readonly List<OneRow> _rows = [];
    private int _count;

    /// <summary>Where the rows stand.</summary>
    public Stretch Place { get; private set; } = new(0, 0, 0, 0);

    /// <summary>Whether all of its rows are judged.</summary>
    public bool IsJudged { get; set; }

    /// <summary>The rows, blank ones left out.</summary>
    public ReadOnlySpan<OneRow> Rows => CollectionsMarshal.AsSpan(_rows)[.._count];

    /// <summary>Whether there is something to say of most of the rows, so that judging ahead gains nothing.</summary>
    public bool IsMostlyAgain
    {
        get
        {
            var again = 0;
            foreach (var row in Rows)
                again += row.IsAgain ? 1 : 0;
            return 2 * again > _count;
        }
    }

    /// <summary>Begins anew.</summary>
    public void Begin(Stretch place) => (Place, IsJudged, _count) = (place, false, 0);

    /// <summary>Judges the rows.</summary>
    /// <param name="records">Reads them.</param>
    /// <param name="judge">Judges them on trial.</param>
    // Called for a stretch of rows: a million rows are too few calls for the runtime to compile it again with care, and too many steps to go without.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Fill(RecordReader records, RowJudge<TRow> judge)
    {
        var trial = judge.Reports.File;
        trial.Forget();
        while (records.Read())
        {
            if (RowJudge<TRow>.IsBlank(records))
                continue;
            if (_count == _rows.Count)
                _rows.Add(new OneRow(begin(), new JudgedRow(filed)));
            else
                clear(_rows[_count].Row);
            var row = _rows[_count++];
            var before = trial.Noticed;
            judge.Judge(records, row.Row);
            row.Reports.Take(judge.Reports);
            (row.Offset, row.IsAgain) = (records.Offset, trial.Noticed > before);
        }
    }

    /// <summary>A row that was judged on trial.</summary>
    internal sealed class OneRow(TRow row, JudgedRow reports)
    {
        /// <summary>Its values; of no use where it is to be judged again.</summary>
        public TRow Row => row;

        /// <summary>Where it stands.</summary>
        public JudgedRow Reports => reports;

        /// <summary>Where its record begins in the stretch.</summary>
        public int Offset { get; set; }

        /// <summary>Whether there was something to say of it or to be taken note of, so that it is to be judged again in its turn.</summary>
        public bool IsAgain { get; set; }
    }
}
