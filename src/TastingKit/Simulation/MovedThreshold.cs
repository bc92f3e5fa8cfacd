namespace TastingKit;

/// <summary>Steps of the score that begin elsewhere in one quarter of a simulated year, while the coffee stays what it is.</summary>
/// <param name="Quarter">The quarter, 1 to 4.</param>
/// <param name="From">The step from which on all steps are moved.</param>
/// <param name="Points">Points of impression by which they begin lower; negative where they begin higher.</param>
public sealed record MovedThreshold(int Quarter, double From, double Points)
{
    /// <summary>The step given, from the one that the impression has on the scale as it is and the one that it has with all steps moved.</summary>
    internal double Record(double asItIs, double moved, Scale scale) =>
        moved >= From ? moved : Math.Min(asItIs, Math.Max(scale.Min, From - scale.Step));

    internal void Validate()
    {
        SimulationSettings.Between(Quarter, 1, 4, nameof(Quarter));
        SimulationSettings.Finite(From, nameof(From));
        SimulationSettings.Finite(Points, nameof(Points));
    }
}
