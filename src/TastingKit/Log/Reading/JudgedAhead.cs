using System.Runtime.ExceptionServices;

namespace TastingKit.Reading;

/// <summary>
/// Judges the rows of a large file ahead of their being taken, several stretches at once; the thread that takes them judges too where it would
/// have to wait. They are handed out in the order of the file.
/// </summary>
/// <remarks>
/// A row is judged ahead on trial. One of which nothing is to be said, nor to be taken note of for later rows (a spelling, what is said once a
/// column), is handed out as it is; any other has to be judged again in its turn. So nothing that is reported depends on the threads.
/// </remarks>
/// <typeparam name="TRow">What gathers a row's values.</typeparam>
internal sealed class JudgedAhead<TRow> : IDisposable
{
    private const int StretchesAThread = 8;

    private readonly object _gate = new();
    private readonly Stretches _stretches;
    private readonly Func<Stretch, RecordReader> _open;
    private readonly Func<RowJudge<TRow>> _newJudge;
    private readonly JudgedStretch<TRow>[] _ring;
    private readonly Task[] _others;
    private RowJudge<TRow>? _ownJudge;
    private ExceptionDispatchInfo? _failure;
    private int _claimed;
    private int _asked;
    private int _released;
    private bool _ended;

    /// <summary>Begins to judge.</summary>
    /// <param name="stretches">The rows.</param>
    /// <param name="threads">How many threads judge, the one that takes the rows among them.</param>
    /// <param name="open">Reads a stretch.</param>
    /// <param name="newJudge">Makes a judge for a thread, whose reports are on trial.</param>
    /// <param name="newStretch">Makes room for the rows of a stretch.</param>
    public JudgedAhead(Stretches stretches, int threads, Func<Stretch, RecordReader> open, Func<RowJudge<TRow>> newJudge, Func<JudgedStretch<TRow>> newStretch)
    {
        (_stretches, _open, _newJudge) = (stretches, open, newJudge);
        _ring = [.. Enumerable.Range(0, threads * StretchesAThread).Select(_ => newStretch())];
        _others = [.. Enumerable.Range(1, threads - 1).Select(_ => Task.Factory.StartNew(JudgeOnAnother, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default))];
    }

    /// <summary>The next stretch, its rows judged; <see langword="null"/> after the last. The one before is no longer to be asked.</summary>
    public JudgedStretch<TRow>? Next()
    {
        var place = _asked++;
        lock (_gate)
        {
            _released = place;
            Monitor.PulseAll(_gate);
        }

        while (true)
        {
            // A stretch that nobody has begun is begun here, be it this one or a later.
            if (!IsKnown(place) && Claim(mayWait: false) is { } stretch)
            {
                Judge(stretch, _ownJudge ??= _newJudge());
                continue;
            }

            lock (_gate)
            {
                while (!IsKnown(place))
                    Monitor.Wait(_gate);
                _failure?.Throw();
                return place < _claimed ? _ring[place % _ring.Length] : null;
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_gate)
        {
            _ended = true;
            Monitor.PulseAll(_gate);
        }

        Task.WaitAll(_others);
    }

    /// <summary>Whether a stretch is judged, or it is known that there is none.</summary>
    private bool IsKnown(int place)
    {
        lock (_gate)
            return _failure is not null || (place < _claimed ? _ring[place % _ring.Length].IsJudged : _ended);
    }

    private JudgedStretch<TRow>? Claim(bool mayWait)
    {
        lock (_gate)
        {
            while (!_ended && _claimed - _released == _ring.Length)
            {
                if (!mayWait)
                    return null;
                Monitor.Wait(_gate);
            }

            if (_ended)
                return null;
            if (_stretches.Next() is not { } next)
            {
                _ended = true;
                Monitor.PulseAll(_gate);
                return null;
            }

            var stretch = _ring[_claimed++ % _ring.Length];
            stretch.Begin(next);
            return stretch;
        }
    }

    private void Judge(JudgedStretch<TRow> stretch, RowJudge<TRow> judge)
    {
        using (var records = _open(stretch.Place))
            stretch.Fill(records, judge);
        lock (_gate)
        {
            stretch.IsJudged = true;
            Monitor.PulseAll(_gate);
        }
    }

    private void JudgeOnAnother()
    {
        try
        {
            var judge = _newJudge();
            while (Claim(mayWait: true) is { } stretch)
                Judge(stretch, judge);
        }
#pragma warning disable CA1031 // Thrown again where the rows are taken.
        catch (Exception e)
#pragma warning restore CA1031
        {
            lock (_gate)
            {
                _failure = ExceptionDispatchInfo.Capture(e);
                Monitor.PulseAll(_gate);
            }
        }
    }
}
