using MathNet.Numerics;

namespace TastingKit.Statistics;

/// <summary>A joint test that several contrasts are all zero, with Satterthwaite's denominator degrees of freedom.</summary>
/// <param name="Term">The term tested.</param>
/// <param name="F">The F statistic.</param>
/// <param name="NumeratorDegreesOfFreedom">Number of independent contrasts.</param>
/// <param name="DenominatorDegreesOfFreedom">Degrees of freedom of the denominator (Fai and Cornelius 1996).</param>
/// <param name="P">Upper tail probability of the F distribution.</param>
public sealed record OmnibusTest(string Term, double F, int NumeratorDegreesOfFreedom, double DenominatorDegreesOfFreedom, double P)
{
    internal static OmnibusTest Of(LinearMixedModelFit fit, string term, IReadOnlyList<LinearFunction> functions)
    {
        var (variances, directions) = SmallMatrix.Eigen(fit.Covariances(functions));
        double largest = variances.Max(), sum = 0;
        var degreesOfFreedom = new List<double>();
        for (int e = 0; e < variances.Length; e++)
        {
            if (variances[e] <= 1e-10 * largest) continue;
            LinearFunction rotated = LinearFunction.Zero;
            for (int i = 0; i < functions.Count; i++) rotated += functions[i] * directions[i, e];
            double value = fit.Value(rotated);
            sum += value * value / variances[e];
            degreesOfFreedom.Add(fit.Information.DegreesOfFreedom(rotated));
        }

        int count = degreesOfFreedom.Count;
        double f = sum / count, denominator = Denominator(degreesOfFreedom);
        double p = double.IsInfinity(denominator) ? 0 : SpecialFunctions.BetaRegularized(denominator / 2, count / 2.0, denominator / (denominator + count * f));
        return new OmnibusTest(term, f, count, denominator, p);
    }

    // An F with these denominator degrees of freedom has the mean of the average of independent squared t's.
    private static double Denominator(List<double> each)
    {
        if (each.Max() - each.Min() < 1e-8) return each.Average();
        if (each.Min() <= 2) return 2;
        double expectation = each.Sum(nu => nu / (nu - 2));
        return 2 * expectation / (expectation - each.Count);
    }
}
