namespace TastingKit;

/// <summary>
/// How far coffees differ and by what, in score points. Effects of countries, processes, roasters, lots and bags are drawn
/// anew each year from normal distributions with mean zero and the standard deviations given here.
/// </summary>
public sealed record SimulatedQuality
{
    /// <summary>Standard deviation between countries.</summary>
    public double CountryStandardDeviation { get; init; } = 0.25;

    /// <summary>Standard deviation between base processes.</summary>
    public double ProcessStandardDeviation { get; init; } = 0.20;

    /// <summary>Points that an anaerobic fermentation adds.</summary>
    public double AnaerobicEffect { get; init; } = 0.15;

    /// <summary>Standard deviation between roasters.</summary>
    public double RoasterStandardDeviation { get; init; } = 0.25;

    /// <summary>Standard deviation between coffees (green lots) of one country, process, fermentation and roaster.</summary>
    public double LotStandardDeviation { get; init; } = 0.40;

    /// <summary>Standard deviation between bags of one lot: another roast, another age of the green coffee.</summary>
    public double BagStandardDeviation { get; init; } = 0.12;

    /// <summary>Better buying: points a year by which bags roasted later are truly better, counted from mid-year.</summary>
    public double BuyingTrendPerYear { get; init; }

    internal void Validate()
    {
        SimulationSettings.AtLeast(CountryStandardDeviation, 0, nameof(CountryStandardDeviation));
        SimulationSettings.AtLeast(ProcessStandardDeviation, 0, nameof(ProcessStandardDeviation));
        SimulationSettings.Finite(AnaerobicEffect, nameof(AnaerobicEffect));
        SimulationSettings.AtLeast(RoasterStandardDeviation, 0, nameof(RoasterStandardDeviation));
        SimulationSettings.AtLeast(LotStandardDeviation, 0, nameof(LotStandardDeviation));
        SimulationSettings.AtLeast(BagStandardDeviation, 0, nameof(BagStandardDeviation));
        SimulationSettings.Finite(BuyingTrendPerYear, nameof(BuyingTrendPerYear));
    }
}
