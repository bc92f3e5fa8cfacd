namespace TastingKit.Statistics;

/// <summary>The most probable value of one random effect given the data.</summary>
/// <param name="Level">The group's level.</param>
/// <param name="Term">The effect, "(Intercept)" or a slope's name.</param>
/// <param name="Mode">The conditional mode (best linear unbiased prediction), in the response's unit.</param>
/// <param name="StandardDeviation">Conditional standard deviation given the variance parameters and the fixed effects. The prediction error that also counts the fixed effects is what <see cref="LinearMixedModelFit.Estimate"/> gives.</param>
public sealed record ConditionalMode(string Level, string Term, double Mode, double StandardDeviation);

/// <summary>The conditional modes of a group, level by level.</summary>
public sealed class ConditionalModes
{
    private readonly LinearMixedModelFit _fit;
    private readonly ConditionalMode[] _rows;
    private readonly Dictionary<(string, string), int> _index;

    internal ConditionalModes(LinearMixedModelFit fit, string group, ConditionalMode[] rows)
    {
        _fit = fit;
        _rows = rows;
        Group = group;
        _index = rows.Select((row, index) => (row, index)).ToDictionary(each => (each.row.Level, each.row.Term), each => each.index);
    }

    /// <summary>The grouping factor.</summary>
    public string Group { get; }

    /// <summary>All modes, the effects of a level together, levels in the factor's order.</summary>
    public IReadOnlyList<ConditionalMode> Rows => _rows;

    /// <summary>The mode of one effect.</summary>
    /// <param name="level">The group's level.</param>
    /// <param name="term">The effect, "(Intercept)" or a slope's name.</param>
    /// <exception cref="ArgumentException">There is no such level or effect.</exception>
    public ConditionalMode this[string level, string term = RandomTerm.Intercept] => _index.TryGetValue((level, term), out int index)
        ? _rows[index]
        : throw new ArgumentException($"Group '{Group}' has no effect '{term}' of a level '{level}'.");

    /// <summary>Conditional covariance of two effects given the variance parameters and the fixed effects.</summary>
    /// <param name="first">An effect of this fit.</param>
    /// <param name="second">An effect of this fit, of the same group or another.</param>
    public double Covariance(LinearFunction first, LinearFunction second) => _fit.ConditionalCovariance(first, second);
}
