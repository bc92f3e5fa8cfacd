namespace TastingKit.Statistics;

/// <summary>The log-likelihood with the random effects integrated out.</summary>
internal interface IMarginalLikelihood
{
    /// <summary>Its value, minus infinity where a row has no positive probability.</summary>
    double Value(ReadOnlySpan<double> parameters);

    /// <summary>Its value and gradient; the gradient is empty where the value is minus infinity.</summary>
    (double Value, double[] Gradient) Gradient(ReadOnlySpan<double> parameters);

    /// <summary>The modes at the parameters of the last evaluation.</summary>
    EffectModes Modes { get; }

    /// <summary>The rows at the parameters of the last evaluation.</summary>
    RowState State { get; }

    /// <summary>How often the modes were sought.</summary>
    int Evaluations { get; }
}
