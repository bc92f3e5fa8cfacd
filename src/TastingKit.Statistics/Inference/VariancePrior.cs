namespace TastingKit.Statistics;

/// <summary>Half-t on every standard deviation, times itself where it is known not to be nought, and uniform on correlations, as a density of the relative covariance factors at a residual standard deviation.</summary>
internal sealed class VariancePrior(MixedModelGeometry geometry, DrawOptions options)
{
    /// <summary>
    /// Logarithm of the prior's density, up to a constant, of the residual standard deviation's logarithm and the factors' entries.
    /// </summary>
    /// <remarks>
    /// Row j of a factor is the standard deviation s of effect j times a unit vector; its volume element is s^(j−1) ds dω, and a uniform
    /// prior on correlation matrices is T_jj/s to the power q − j + 1 on the half-sphere (Lewandowski, Kurowicka and Joe 2009).
    /// </remarks>
    /// <param name="factors">Relative covariance factors of the groups.</param>
    /// <param name="residual">Residual standard deviation in the unit of the scaled response.</param>
    public double LogDensity(double[][,] factors, double residual)
    {
        double logResidual = PortableMath.Log(residual);
        double sum = LogHalfT(residual, options.PriorScale) + logResidual;
        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            foreach (RandomTermLayout term in geometry.Groups[g].Terms)
            {
                double[,] factor = factors[g];
                string group = geometry.Groups[g].Group.Name;
                if (term.HasCommonVariance)
                {
                    sum += LogOf(residual * factor[term.Offset, term.Offset], group, term.EffectNames[0]) + logResidual;
                    continue;
                }

                for (int j = 0; j < term.Width; j++)
                {
                    double squares = 0;
                    for (int k = 0; k <= j; k++) squares += factor[term.Offset + j, term.Offset + k] * factor[term.Offset + j, term.Offset + k];
                    double deviation = Math.Sqrt(squares);
                    sum += LogOf(residual * deviation, group, term.EffectNames[j]) + (j + 1) * logResidual;
                    if (j == 0) continue;
                    sum += (term.Width - j) * PortableMath.Log(factor[term.Offset + j, term.Offset + j] / deviation) - j * PortableMath.Log(residual * deviation);
                }
            }
        }

        return sum;
    }

    private double LogOf(double deviation, string group, string effect) =>
        LogHalfT(deviation, ScaleOf(group, effect)) + (options.KnownToDiffer.Contains((group, effect)) ? PortableMath.Log(deviation) : 0);

    private double ScaleOf(string group, string effect) => options.PriorScaleOfEffect.TryGetValue((group, effect), out double own) ? own : options.PriorScale;

    private double LogHalfT(double deviation, double scale) =>
        -0.5 * (options.PriorDegreesOfFreedom + 1) * PortableMath.Log(1 + deviation * deviation / (scale * scale * options.PriorDegreesOfFreedom));
}
