using TastingKit.Statistics;

namespace TastingKit.Calibration;

/// <summary>How well the model that an analysis fits matches the truth of a cell, which decides what must hold there.</summary>
public enum Match
{
    /// <summary>The analysis's own model made the years: intervals must be exact.</summary>
    Exact,

    /// <summary>The model is right, but a factor has fewer than eight levels or a variance is nought: intervals may be wide.</summary>
    Strained,

    /// <summary>The truth departs from the model: intervals must nearly hold, or the analysis must say so.</summary>
    Misspecified,
}

/// <summary>One kind of year, fixed before any was looked at, and the analyses tried on it.</summary>
/// <param name="Name">Short name, as typed on the command line.</param>
/// <param name="Why">What the cell asks, as a sentence.</param>
/// <param name="Match">How well the analyses' model matches.</param>
/// <param name="Seed">The seed that all of the cell's years come from.</param>
/// <param name="Settings">What the years are simulated from.</param>
/// <param name="Cautions">Names of the cautions of which one must fire where a misspecified cell's intervals do not hold; one written with its analysis, as <c>analysis: caution</c>, speaks of that analysis alone.</param>
public sealed record CalibrationCell(
    string Name, string Why, Match Match, ulong Seed, SimulationSettings Settings, IReadOnlyList<string> Cautions)
{
    /// <summary>
    /// Names of the analyses whose model has a variance that is nought in these years, though the model is right: their intervals may be wide, and
    /// cover at least as often as where the cell is <see cref="Match.Strained"/>.
    /// </summary>
    public IReadOnlyList<string> WithNought { get; init; } = [];

    /// <summary>The seed of one of the cell's years.</summary>
    /// <param name="year">The year's number, from 0.</param>
    public ulong SeedOf(int year) => new RandomStream(Seed).Split((ulong)year).NextUInt64();
}
