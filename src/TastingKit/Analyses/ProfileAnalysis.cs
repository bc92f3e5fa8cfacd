using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="MethodProfile"/>.</summary>
internal static class ProfileAnalysis
{
    private const double Rate = 0.05;
    private const int Draws = 2000;
    private const string Estimator =
        "each attribute by a model of its own; attributes are selected by the procedure of Benjamini and Hochberg (1995) on the test of all pairs at once, by the draws' largest standardised deviation, "
        + "at a false discovery rate of 5 %; within each selected one the intervals are simultaneous over the pairs at 1 \u2212 0.05 R/m (Benjamini and Yekutieli 2005)";

    // Several attributes are gone through at once, and the draws of the last of them share the cores that the others left.
    private static readonly DrawOptions FewerDraws = new() { VarianceProposals = 100, PilotDraws = 60 };

    public static MethodProfile Of(TastingLog log, Factor factor, ulong seed, DrawOptions? varianceDraws = null)
    {
        MethodAnalysis.RequireMethod(factor);
        // Each attribute has a model and draws of its own, so that the order they are gone through changes nothing.
        var analyses = log.Attributes.AsParallel().AsOrdered().WithCancellation(log.Watch.CancellationToken).Select(attribute =>
        {
            var analysis = new MethodAnalysis(log, factor, attribute, null);
            return (Attribute: attribute, Analysis: analysis, P: analysis.OmnibusP(seed, Draws, varianceDraws ?? FewerDraws));
        }).ToArray();
        var tested = analyses.Where(a => a.P is not null)
            .OrderBy(a => a.P).ThenBy(a => a.Attribute.Name, StringComparer.Ordinal).ToArray();
        var untested = analyses.Select(a => a.Attribute).Except(tested.Select(a => a.Attribute)).ToArray();
        if (tested.Length == 0)
        {
            return new MethodProfile(
                factor, [], untested, 1 - Rate, [], new Computation("none", "none", 0, []),
                Support.Missing(
                    log.Attributes.Count == 0
                        ? "No cup has a value for any attribute, so nothing can be said of what the method does to them."
                        : $"In none of {NumberText.Count(log.Attributes.Count, "attribute")} can the levels of {factor.Name} be compared within coffees.",
                    $"Score attributes of the same coffee brewed with two levels of {factor.Name}."));
        }

        var adjusted = MultipleTesting.BenjaminiHochberg([.. tested.Select(a => a.P!.Value)]);
        var level = 1 - (Rate * Math.Max(1, adjusted.Count(p => p <= Rate)) / tested.Length);
        var attributes = tested.Select((a, i) => new AttributeEffects(
            a.Attribute, a.P!.Value, adjusted[i], adjusted[i] <= Rate ? a.Analysis.Answer(seed, varianceDraws ?? FewerDraws, level, Draws) : null)).ToArray();
        var selected = attributes.Select(a => a.Effects).OfType<MethodEffects>().ToArray();
        var cautions = selected.SelectMany(e => e.Cautions.Where(c => c.Name is not ("ceiling" or "neighbours-alike"))).DistinctBy(c => c.Name).ToList();
        var justRight = selected.Where(e => e.Scale.Kind == ScaleKind.JustRight).Select(e => e.Attribute.Name).ToArray();
        if (justRight.Length > 0)
            cautions.Add(new Caution("just-right", $"Of {string.Join(", ", justRight)} the middle of the scale is best: more is not better."));
        var first = selected.FirstOrDefault()?.Computation;
        return new MethodProfile(
            factor, attributes, untested, level, cautions,
            new Computation(
                first?.Model ?? $"linear mixed model of each attribute by {factor.Name} and the rest of the brew, within coffees", Estimator,
                tested.Max(a => a.Analysis.CupsUsed), first?.LeftOut ?? [], seed),
            Support.Given);
    }
}
