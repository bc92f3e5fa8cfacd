namespace TastingKit.Statistics;

/// <summary>How the effects that one level of a group has in one random term vary together.</summary>
public enum RandomCovariance
{
    /// <summary>Any covariance matrix: each effect has its own variance and all are correlated.</summary>
    Unstructured,

    /// <summary>One variance for all effects, which are independent of each other: the coefficients of a penalised curve.</summary>
    CommonVariance,
}

/// <summary>One random term of a model: effects that each level of a group has, drawn from a normal distribution of mean zero.</summary>
public sealed class RandomTerm
{
    /// <summary>The name of an effect that goes with no column: a level's own, or the constant of a model.</summary>
    public const string Intercept = "(Intercept)";

    internal RandomTerm(CategoricalColumn group, bool hasIntercept, IReadOnlyList<Column> slopes, RandomCovariance covariance)
    {
        Group = group;
        HasIntercept = hasIntercept;
        Slopes = slopes;
        Covariance = covariance;
    }

    /// <summary>The grouping factor.</summary>
    public CategoricalColumn Group { get; }

    /// <summary>Whether each level has an intercept of its own.</summary>
    public bool HasIntercept { get; }

    /// <summary>Columns whose coefficient differs by level. A factor beside an intercept is coded by treatment contrasts, without one by one effect a level.</summary>
    public IReadOnlyList<Column> Slopes { get; }

    /// <summary>The form of the covariance among the effects of a level.</summary>
    public RandomCovariance Covariance { get; }
}
