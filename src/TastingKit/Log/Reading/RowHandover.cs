using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;

namespace TastingKit.Reading;

/// <summary>
/// Hands the rows of a table on in their order: one by one, or where there are many in batches to a second thread, which takes them while the
/// next ones are judged. What comes of it is the same either way.
/// </summary>
/// <typeparam name="TRow">What gathers a row's values.</typeparam>
internal sealed class RowHandover<TRow> : IDisposable
{
    private const int RowsABatch = 256;
    private const int Batches = 4;

    private readonly FileReports _reports;
    private readonly Action<TRow, JudgedRow> _take;
    private readonly Func<TRow> _begin;
    private readonly Action<TRow>? _clear;
    private readonly List<(int After, LogProblem Problem)> _heldBack = [];
    private readonly BlockingCollection<Batch> _free = [];
    private readonly BlockingCollection<Batch> _filled = [];
    private readonly Task? _taking;
    private ExceptionDispatchInfo? _failure;
    private Batch _batch;

    /// <summary>Makes ready.</summary>
    /// <param name="reports">The reports on the file.</param>
    /// <param name="begin">Makes a row to fill.</param>
    /// <param name="clear">Makes a row ready for the next record once it was taken; <see langword="null"/> for a new row each time.</param>
    /// <param name="take">Takes a row.</param>
    /// <param name="many">Whether there are so many rows that a second thread is worth while; only rows that are cleared go there.</param>
    public RowHandover(FileReports reports, Func<TRow> begin, Action<TRow>? clear, Action<TRow, JudgedRow> take, bool many)
    {
        (_reports, _begin, _clear, _take) = (reports, begin, clear, take);
        var apart = many && clear is not null && Environment.ProcessorCount > 1;
        _batch = new Batch(apart ? RowsABatch : 1);
        if (!apart)
            return;
        for (var i = 1; i < Batches; i++)
            _free.Add(new Batch(RowsABatch));
        _taking = Task.Factory.StartNew(TakeBatches, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
    }

    /// <summary>The row to fill next.</summary>
    public TRow Next()
    {
        ref var slot = ref _batch.Slots[_batch.Count];
        slot.Reports ??= new JudgedRow(_reports, _heldBack);
        if (_clear is not null && slot.IsMade)
            _clear(slot.Row);
        else
            (slot.Row, slot.IsMade) = (_begin(), true);
        return slot.Row;
    }

    /// <summary>Hands the row on, its cells judged.</summary>
    public void HandOn(RecordReports record)
    {
        _batch.Slots[_batch.Count++].Reports!.Take(record);
        if (_batch.Count < _batch.Slots.Length)
            return;
        if (_taking is null)
        {
            TakeAll(_batch);
            return;
        }

        _filled.Add(_batch);
        _batch = _free.Take();
    }

    /// <summary>Waits until all rows are taken, and files the reports on them.</summary>
    public void Finish()
    {
        if (_taking is null)
        {
            TakeAll(_batch);
        }
        else
        {
            _filled.Add(_batch);
            _filled.CompleteAdding();
            _taking.Wait();
            _failure?.Throw();
        }

        _reports.Insert(_heldBack);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _filled.CompleteAdding();
        _taking?.Wait();
        _filled.Dispose();
        _free.Dispose();
    }

    private void TakeBatches()
    {
        foreach (var batch in _filled.GetConsumingEnumerable())
        {
            try
            {
                if (_failure is null)
                    TakeAll(batch);
            }
#pragma warning disable CA1031 // Thrown again where the rows are judged.
            catch (Exception e)
#pragma warning restore CA1031
            {
                _failure = ExceptionDispatchInfo.Capture(e);
            }

            batch.Count = 0;
            _free.Add(batch);
        }
    }

    private void TakeAll(Batch batch)
    {
        foreach (ref var slot in batch.Slots.AsSpan(0, batch.Count))
            _take(slot.Row, slot.Reports!);
        batch.Count = 0;
    }

    private sealed class Batch(int rows)
    {
        public Slot[] Slots { get; } = new Slot[rows];

        public int Count { get; set; }
    }

    private struct Slot
    {
        public TRow Row;
        public JudgedRow? Reports;
        public bool IsMade;
    }
}
