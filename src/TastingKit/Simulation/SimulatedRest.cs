namespace TastingKit;

/// <summary>
/// The rest curve: a cup at its bag's peak loses nothing, and away from it loses
/// <c>depth · (1 − x)² / (1 + x²)</c> points, where x is effective rest over the peak day. Half and double the peak day
/// lose a fifth of the depth each; the first day loses nearly all of it.
/// </summary>
public sealed record SimulatedRest
{
    /// <summary>Points lost on the day of roasting, against the peak; 0 for no effect of rest.</summary>
    public double Depth { get; init; } = 1.0;

    /// <summary>Peak in days of effective rest of a light roast without anaerobic fermentation, by base process.</summary>
    public IReadOnlyDictionary<string, double> PeakDays { get; init; } = new Dictionary<string, double>
    {
        ["washed"] = 17,
        ["natural"] = 25,
        ["honey"] = 21,
        ["wet-hulled"] = 15,
    };

    /// <summary>Days by which a medium roast peaks earlier than a light one.</summary>
    public double MediumRoastEarlier { get; init; } = 4;

    /// <summary>Days by which a dark roast peaks earlier than a light one.</summary>
    public double DarkRoastEarlier { get; init; } = 8;

    /// <summary>Days by which an anaerobic fermentation delays the peak.</summary>
    public double AnaerobicLater { get; init; } = 4;

    /// <summary>Whether a coffee stays as good as it was at its peak, in place of getting worse again.</summary>
    public bool StaysAtPeak { get; init; }

    /// <summary>Standard deviation of a bag's own peak about its kind's, as a share of the peak day.</summary>
    public double PeakBagStandardDeviation { get; init; } = 0.12;

    /// <summary>The effect of rest in points, from minus the depth to 0.</summary>
    /// <param name="depth">Depth in points.</param>
    /// <param name="peakDays">Peak in days; positive.</param>
    /// <param name="restDays">Effective rest in days; not negative.</param>
    internal static double Effect(double depth, double peakDays, double restDays)
    {
        var x = restDays / peakDays;
        return -depth * (1 - x) * (1 - x) / (1 + x * x);
    }

    internal double PeakOf(string process, bool anaerobic, string roastLevel)
    {
        if (!PeakDays.TryGetValue(process, out var peak))
            throw new ArgumentException($"The setting PeakDays has no peak for the process '{process}'; it has {string.Join(", ", PeakDays.Keys)}.", nameof(process));
        peak += anaerobic ? AnaerobicLater : 0;
        peak -= roastLevel switch { "medium" => MediumRoastEarlier, "dark" => DarkRoastEarlier, _ => 0 };
        // A peak can be early but never before the coffee can be brewed at all.
        return Math.Max(2, peak);
    }

    internal void Validate()
    {
        SimulationSettings.AtLeast(Depth, 0, nameof(Depth));
        foreach (var (process, peak) in PeakDays)
            SimulationSettings.AtLeast(peak, 1, $"peak day of {process}");
        SimulationSettings.Finite(MediumRoastEarlier, nameof(MediumRoastEarlier));
        SimulationSettings.Finite(DarkRoastEarlier, nameof(DarkRoastEarlier));
        SimulationSettings.Finite(AnaerobicLater, nameof(AnaerobicLater));
        SimulationSettings.Between(PeakBagStandardDeviation, 0, 1, nameof(PeakBagStandardDeviation));
    }
}
