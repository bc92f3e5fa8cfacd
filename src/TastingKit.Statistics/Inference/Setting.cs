namespace TastingKit.Statistics;

/// <summary>What a factor that a setting does not fix is averaged over.</summary>
public enum MarginalWeights
{
    /// <summary>Every level counts alike, as if the data were balanced.</summary>
    Equal,

    /// <summary>Every row of the data counts at the levels it has of the factors that are not fixed.</summary>
    AsObserved,
}

/// <summary>
/// Where the fixed part of a model is looked at: factors at a level or averaged, covariates at a value or at their mean over the rows. Immutable.
/// </summary>
public sealed class Setting
{
    private readonly Dictionary<string, string> _levels;
    private readonly Dictionary<string, double> _values;

    private Setting(MarginalWeights weights, Dictionary<string, string> levels, Dictionary<string, double> values)
    {
        Weights = weights;
        _levels = levels;
        _values = values;
    }

    /// <summary>How factors that are not fixed are averaged.</summary>
    public MarginalWeights Weights { get; }

    /// <summary>The factors fixed, each at its level.</summary>
    public IReadOnlyDictionary<string, string> Levels => _levels;

    /// <summary>The covariates fixed, each at its value.</summary>
    public IReadOnlyDictionary<string, double> Values => _values;

    /// <summary>A setting that fixes nothing: factors averaged, covariates at their mean.</summary>
    /// <param name="weights">How factors are averaged.</param>
    public static Setting Averaged(MarginalWeights weights = MarginalWeights.Equal) => new(weights, new(StringComparer.Ordinal), new(StringComparer.Ordinal));

    /// <summary>Fixes a factor at a level.</summary>
    /// <param name="factor">The factor's name.</param>
    /// <param name="level">One of its levels.</param>
    public Setting With(string factor, string level)
    {
        ArgumentException.ThrowIfNullOrEmpty(factor);
        ArgumentNullException.ThrowIfNull(level);
        return new Setting(Weights, new(_levels, StringComparer.Ordinal) { [factor] = level }, _values);
    }

    /// <summary>Fixes a covariate at a value.</summary>
    /// <param name="covariate">The covariate's name.</param>
    /// <param name="value">A finite value in the covariate's unit.</param>
    public Setting With(string covariate, double value)
    {
        ArgumentException.ThrowIfNullOrEmpty(covariate);
        if (!double.IsFinite(value)) throw new ArgumentOutOfRangeException(nameof(value), value, $"Covariate '{covariate}' must be set to a finite number.");
        return new Setting(Weights, _levels, new(_values, StringComparer.Ordinal) { [covariate] = value });
    }
}
