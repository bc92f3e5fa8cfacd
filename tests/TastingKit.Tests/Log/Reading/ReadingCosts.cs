using System.Diagnostics;
using System.Globalization;

namespace TastingKit.Tests.Log.Reading;

/// <summary>What reading takes a byte, in time and in memory given out, beside what a sound log takes.</summary>
internal sealed class ReadingCosts
{
    private const int Again = 5;
    private const int Doubted = 3;

    private readonly Cost _sound;
    private (double Times, string Input) _slowest;
    private (double Times, string Input) _largest;
    private int _inputs;

    /// <summary>Takes the measure of a sound log.</summary>
    public ReadingCosts((string File, byte[] Bytes)[] sound)
    {
        for (var warm = 0; warm < 50; warm++)
            LogInMemory.Read(sound);
        _sound = Least(sound);
    }

    /// <summary>Measures an input that was read, or found unreadable, by <paramref name="first"/>.</summary>
    public void Add((string File, byte[] Bytes)[] files, Cost first, string input)
    {
        _inputs++;
        // A busy machine makes any reading slow once: what seems slow is read again, and the least counts.
        var cost = first.Ticks > Doubted * _sound.Ticks ? Least(files) : first;
        if (cost.Ticks / _sound.Ticks is var slower && slower > _slowest.Times)
            _slowest = (slower, input);
        if (cost.Bytes / _sound.Bytes is var larger && larger > _largest.Times)
            _largest = (larger, input);
    }

    /// <summary>How many times the memory of a sound log, byte for byte, the input given most took. Memory given out is the same on every machine.</summary>
    public double MostMemory => _largest.Times;

    /// <summary>The figures as a sentence each.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{_inputs:N0} inputs. A sound log takes {_sound.Ticks / TimeSpan.TicksPerMicrosecond * 1000:F0} ns and {_sound.Bytes:F1} bytes of memory a byte. "
        + $"Slowest a byte: {_slowest.Times:F1} times that ({_slowest.Input}). Most memory a byte: {_largest.Times:F1} times that ({_largest.Input}).");

    /// <summary>Reads a log and measures it.</summary>
    public static Cost Of((string File, byte[] Bytes)[] files, Func<TastingLog> read, out TastingLog? log, out LogReadException? error)
    {
        (log, error) = (null, null);
        var bytes = Math.Max(1, files.Sum(file => file.Bytes.Length));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var clock = Stopwatch.StartNew();
        try
        {
            log = read();
        }
        catch (LogReadException unreadable)
        {
            error = unreadable;
        }

        return new Cost(clock.Elapsed.Ticks / (double)bytes, (GC.GetAllocatedBytesForCurrentThread() - before) / (double)bytes);
    }

    private static Cost Least((string File, byte[] Bytes)[] files)
    {
        var costs = Enumerable.Range(0, Again).Select(_ => Of(files, () => LogInMemory.Read(files), out var _, out var _)).ToList();
        return new Cost(costs.Min(cost => cost.Ticks), costs.Min(cost => cost.Bytes));
    }

    /// <summary>What one reading took, a byte of its files.</summary>
    public readonly record struct Cost(double Ticks, double Bytes);
}
