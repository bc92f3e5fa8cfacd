namespace TastingKit.Statistics;

/// <summary>A fit whose linear functions can be contrasted.</summary>
internal interface IContrastSource
{
    /// <summary>The estimate of a function with its interval.</summary>
    Estimate Estimate(LinearFunction function, double level);

    /// <summary>Covariances of several functions' estimates.</summary>
    double[,] Covariances(IReadOnlyList<LinearFunction> functions);
}
