namespace TastingKit.Statistics;

/// <summary>The log-likelihood given the random effects (none, to begin with), with its gradient and Hessian in the thresholds, location and scale.</summary>
internal static class ConditionalLikelihood
{
    /// <summary>Value, gradient and Hessian at the rows' state; effects, if any, are already in <paramref name="eta"/>.</summary>
    /// <param name="system">The design.</param>
    /// <param name="state">Thresholds and scale of the rows.</param>
    /// <param name="eta">The rows' locations.</param>
    public static (double Value, double[] Gradient, double[,] Hessian) Evaluate(OrdinalSystem system, RowState state, double[] eta)
    {
        var gradient = new ParameterGradient(system);
        var hessian = new ParameterHessian(system);
        var d = default(CategoryDerivatives);
        double value = 0.0;
        for (int row = 0; row < system.RowCount; row++)
        {
            double weight = system.Weights is null ? 1.0 : system.Weights[row];
            state.Derivatives(row, eta[row], ref d);
            value += weight * d.Log;
            gradient.Add(row, weight * d.Hi, weight * d.Lo, weight * d.Eta, weight * d.Kappa);
            hessian.Add(row, weight, in d);
        }

        return (value, gradient.Finish(), hessian.Finish());
    }

    /// <summary>The value alone.</summary>
    public static double Value(OrdinalSystem system, RowState state, double[] eta)
    {
        double value = 0.0;
        for (int row = 0; row < system.RowCount; row++)
        {
            value += (system.Weights is null ? 1.0 : system.Weights[row]) * state.LogAndSlopes(row, eta[row], out _, out _);
        }

        return value;
    }
}
