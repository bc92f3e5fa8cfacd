namespace TastingKit.Statistics;

/// <summary>The estimated spread of one random term's effects.</summary>
public sealed class VarianceComponent
{
    private readonly string[] _terms;
    private readonly double[] _deviations;
    private readonly double[,] _correlations;

    internal VarianceComponent(string group, int levelCount, string[] terms, double[] deviations, double[,] correlations)
    {
        Group = group;
        LevelCount = levelCount;
        _terms = terms;
        _deviations = deviations;
        _correlations = correlations;
    }

    /// <summary>The grouping factor.</summary>
    public string Group { get; }

    /// <summary>Number of levels of the group.</summary>
    public int LevelCount { get; }

    /// <summary>The effects of a level, "(Intercept)" among them where there is one.</summary>
    public IReadOnlyList<string> Terms => _terms;

    /// <summary>Standard deviation of each effect over levels, in the response's unit (per unit of the covariate); exactly zero where nothing varies.</summary>
    public IReadOnlyList<double> StandardDeviations => _deviations;

    /// <summary>The correlation of two effects of a level.</summary>
    /// <param name="first">Index in <see cref="Terms"/>.</param>
    /// <param name="second">Index in <see cref="Terms"/>.</param>
    /// <returns>A number from −1 to 1, or null where one of the two does not vary and a correlation has no meaning.</returns>
    public double? Correlation(int first, int second)
        => _deviations[first] > 0 && _deviations[second] > 0 ? _correlations[first, second] : null;
}
