namespace TastingKit;

/// <summary>A tasting note of a simulated coffee.</summary>
/// <param name="Note">The word.</param>
/// <param name="Probability">Probability that one cup is said to have it, before a cup's list is cut at five notes.</param>
public sealed record NoteTruth(string Note, double Probability);

/// <summary>What is true of one bag of a simulated year.</summary>
/// <param name="BagId">The bag.</param>
/// <param name="BatchEffect">Points by which this bag departs from its lot.</param>
/// <param name="BuyingTrendEffect">Points that come of the year's better buying, by the bag's roast date.</param>
/// <param name="RestDepth">Points lost on the day of roasting.</param>
/// <param name="PeakRestDays">Effective rest in days at which the bag is at its best.</param>
public sealed record BagTruth(string BagId, double BatchEffect, double BuyingTrendEffect, double RestDepth, double PeakRestDays)
{
    /// <summary>The effect of rest in points, at most 0.</summary>
    /// <param name="restDays">Effective rest in days; not negative.</param>
    public double RestEffect(double restDays) => StaysAtPeak && restDays >= PeakRestDays ? 0 : SimulatedRest.Effect(RestDepth, PeakRestDays, restDays);

    /// <summary>Whether the bag stays as good as it was at its peak.</summary>
    public bool StaysAtPeak { get; init; }
}

/// <summary>What is true of one coffee of a simulated year, in score points.</summary>
public sealed record CoffeeTruth
{
    /// <summary>The coffee.</summary>
    public required string CoffeeId { get; init; }

    /// <summary>Country of origin.</summary>
    public required string Country { get; init; }

    /// <summary>Base process.</summary>
    public required string Process { get; init; }

    /// <summary>Whether it was fermented without air.</summary>
    public required bool Anaerobic { get; init; }

    /// <summary>Roaster.</summary>
    public required string Roaster { get; init; }

    /// <summary>Effect of the country.</summary>
    public required double CountryEffect { get; init; }

    /// <summary>Effect of the base process.</summary>
    public required double ProcessEffect { get; init; }

    /// <summary>Effect of the fermentation.</summary>
    public required double FermentationEffect { get; init; }

    /// <summary>Effect of the roaster.</summary>
    public required double RoasterEffect { get; init; }

    /// <summary>Effect of the lot itself, all the above set aside.</summary>
    public required double LotEffect { get; init; }

    /// <summary>Deviation of each brewer with this coffee from what the brewer does to its process.</summary>
    public required IReadOnlyDictionary<string, double> BrewerDeviations { get; init; }

    /// <summary>Deviation of the roaster's recipe with this coffee from what it does to its process.</summary>
    public required double RoasterRecipeDeviation { get; init; }

    /// <summary>What the water temperature and the ratio of the roaster's recipe do, against those of the house recipe.</summary>
    public required double RoasterBrewingEffect { get; init; }

    /// <summary>Deviation of each attribute that goes with nothing else, in points of the attribute's scale.</summary>
    public required IReadOnlyDictionary<TastingAttribute, double> AttributeDeviations { get; init; }

    /// <summary>The coffee's notes, most constant first; empty where texts were left out.</summary>
    public required IReadOnlyList<NoteTruth> Notes { get; init; }

    /// <summary>The bags of this coffee in the log.</summary>
    public required IReadOnlyList<BagTruth> Bags { get; init; }

    /// <summary>Departure of the lot from the taster's mean, at the peak of its rest, its bags' own effects left out.</summary>
    public double LotQuality => CountryEffect + ProcessEffect + FermentationEffect + RoasterEffect + LotEffect;

    /// <summary>Departure from the taster's mean at the peak of rest, averaged over the coffee's bags in the log.</summary>
    public double Quality => LotQuality + Bags.Average(bag => bag.BatchEffect + bag.BuyingTrendEffect);
}
