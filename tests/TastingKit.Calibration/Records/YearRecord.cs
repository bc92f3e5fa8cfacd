using System.Text.Json.Serialization;

namespace TastingKit.Calibration;

/// <summary>How many of a year's intervals covered the truth.</summary>
/// <param name="Covered">Intervals that covered.</param>
/// <param name="Total">Intervals.</param>
/// <param name="Width">Their widths, summed, in points.</param>
/// <param name="Error">Estimate minus truth, summed, in points.</param>
/// <param name="SquaredError">The same squared, summed.</param>
public sealed record CoverageCount(int Covered, int Total, double Width, double Error, double SquaredError);

/// <summary>How often in a year something happened that should be rare.</summary>
/// <param name="Happened">Times that it happened.</param>
/// <param name="Total">Times that it could have.</param>
public sealed record RateCount(int Happened, int Total);

/// <summary>A year's stated probabilities against what was true, in ten bins of equal width.</summary>
/// <param name="Count">Predictions by bin.</param>
/// <param name="Stated">Stated probabilities, summed by bin.</param>
/// <param name="True">How many came true, by bin.</param>
/// <param name="StatedSquared">Squares of the stated probabilities, summed over all bins.</param>
/// <param name="StatedAndTrue">Stated probabilities of those that came true, summed over all bins.</param>
public sealed record ProbabilityCount(int[] Count, double[] Stated, int[] True, double StatedSquared, double StatedAndTrue);

/// <summary>What the analyses said of one simulated year, held against its truth. One line of a cell's record.</summary>
public sealed class YearRecord
{
    // Divisible by every number up to eight.
    private const int SharesOf = 840;

    /// <summary>The year's number within its cell, from 0.</summary>
    public int Year { get; init; }

    /// <summary>Intervals, by what they are of.</summary>
    public SortedDictionary<string, CoverageCount> Coverage { get; init; } = new(StringComparer.Ordinal);

    /// <summary>Rates, by what is counted.</summary>
    public SortedDictionary<string, RateCount> Rates { get; init; } = new(StringComparer.Ordinal);

    /// <summary>Chances of telling a difference that is there, by what is told.</summary>
    public SortedDictionary<string, RateCount> Powers { get; init; } = new(StringComparer.Ordinal);

    /// <summary>How many of the things to be found were, by what they are.</summary>
    public SortedDictionary<string, RateCount> Finds { get; init; } = new(StringComparer.Ordinal);

    /// <summary>Probabilities, by what they are of.</summary>
    public SortedDictionary<string, ProbabilityCount> Probabilities { get; init; } = new(StringComparer.Ordinal);

    /// <summary>The cautions that fired, as analysis and caution; and analyses that refused to answer.</summary>
    public SortedSet<string> Cautions { get; init; } = new(StringComparer.Ordinal);

    /// <summary>Notes one interval against the truth.</summary>
    public void Cover(string what, double estimate, double low, double high, double truth)
    {
        if (!double.IsFinite(estimate) || !double.IsFinite(low) || !double.IsFinite(high) || low > high)
            throw new ArgumentException($"The interval of {what} is {estimate} ({low} to {high}); an interval runs from a lower to a higher finite number.", nameof(estimate));
        var now = Coverage.GetValueOrDefault(what) ?? new CoverageCount(0, 0, 0, 0, 0);
        var error = estimate - truth;
        Coverage[what] = new CoverageCount(
            now.Covered + (low <= truth && truth <= high ? 1 : 0), now.Total + 1, now.Width + (high - low), now.Error + error, now.SquaredError + error * error);
    }

    /// <summary>Notes whether something that should be rare happened.</summary>
    public void Count(string what, bool happened)
    {
        var now = Rates.GetValueOrDefault(what) ?? new RateCount(0, 0);
        Rates[what] = new RateCount(now.Happened + (happened ? 1 : 0), now.Total + 1);
    }

    /// <summary>Notes the share of a few that should be rare among them, 0 where there are none, so that each year counts alike.</summary>
    /// <param name="what">What is counted.</param>
    /// <param name="part">How many of them it happened to.</param>
    /// <param name="whole">How many there are, at most eight.</param>
    public void Share(string what, int part, int whole)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(whole, 8);
        Rates[what] = new RateCount(whole == 0 ? 0 : part * SharesOf / whole, SharesOf);
    }

    /// <summary>Notes whether a difference that is there was told.</summary>
    public void Power(string what, bool told)
    {
        var now = Powers.GetValueOrDefault(what) ?? new RateCount(0, 0);
        Powers[what] = new RateCount(now.Happened + (told ? 1 : 0), now.Total + 1);
    }

    /// <summary>Notes whether something that is there was found.</summary>
    public void Find(string what, bool found)
    {
        var now = Finds.GetValueOrDefault(what) ?? new RateCount(0, 0);
        Finds[what] = new RateCount(now.Happened + (found ? 1 : 0), now.Total + 1);
    }

    /// <summary>Notes a stated probability and whether it came true.</summary>
    public void Predict(string what, double probability, bool cameTrue)
    {
        if (!(probability >= 0 && probability <= 1))
            throw new ArgumentException($"The probability of {what} is {probability}; it must lie between 0 and 1.", nameof(probability));
        if (!Probabilities.TryGetValue(what, out var now))
            now = new ProbabilityCount(new int[Bins], new double[Bins], new int[Bins], 0, 0);
        var bin = Math.Min(Bins - 1, (int)(probability * Bins));
        now.Count[bin]++;
        now.Stated[bin] += probability;
        now.True[bin] += cameTrue ? 1 : 0;
        Probabilities[what] = now with
        {
            StatedSquared = now.StatedSquared + probability * probability,
            StatedAndTrue = now.StatedAndTrue + (cameTrue ? probability : 0),
        };
    }

    /// <summary>Bins of stated probabilities.</summary>
    [JsonIgnore]
    public static int Bins => 10;
}
