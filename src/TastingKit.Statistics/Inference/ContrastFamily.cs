namespace TastingKit.Statistics;

/// <summary>Tests and intervals of a family of contrasts, adjusted together.</summary>
internal static class ContrastFamily
{
    /// <param name="fit">The fit the functions belong to.</param>
    /// <param name="family">The contrasts.</param>
    /// <param name="adjustment">How the family is allowed for.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <param name="seed">Seed of the simultaneous adjustment.</param>
    /// <param name="cells">The means whose pairs the family is, in the order of all pairs, or null for another family.</param>
    public static Contrast[] Of(IContrastSource fit, IReadOnlyList<NamedFunction> family, Adjustment adjustment, double level, ulong seed, IReadOnlyList<NamedFunction>? cells)
    {
        if (!(level > 0 && level < 1)) throw new ArgumentOutOfRangeException(nameof(level), level, "A coverage lies between 0 and 1.");
        if (adjustment == Adjustment.Tukey && cells is null)
            throw new ArgumentException("Tukey's adjustment is for all pairs of the levels of a factor; custom contrasts have Simultaneous, Holm or None.", nameof(adjustment));
        var estimates = family.Select(each => fit.Estimate(each.Function, level)).ToArray();
        double[] tests = Array.ConvertAll(estimates, each => each.StandardError > 0 ? each.Value / each.StandardError : 0);
        double[] p = Array.ConvertAll(estimates, each => each.PValue());
        var (adjusted, critical) = adjustment switch
        {
            Adjustment.None => (p, Array.ConvertAll(estimates, each => StudentsT.TwoSidedQuantile(1 - level, each.DegreesOfFreedom))),
            Adjustment.Holm => ([.. MultipleTesting.Holm(p)], Array.ConvertAll(estimates, each => StudentsT.TwoSidedQuantile((1 - level) / estimates.Length, each.DegreesOfFreedom))),
            Adjustment.Tukey => (
                estimates.Select((each, i) => StudentizedRange.UpperTail(Math.Sqrt(2) * Math.Abs(tests[i]), cells!.Count, each.DegreesOfFreedom)).ToArray(),
                Array.ConvertAll(estimates, each => StudentizedRange.Quantile(level, cells!.Count, each.DegreesOfFreedom) / Math.Sqrt(2))),
            _ => Simultaneous(fit, family, estimates, tests, level, seed, cells),
        };
        return [.. family.Select((each, i) => new Contrast(each.Name, estimates[i].Value, estimates[i].StandardError, estimates[i].DegreesOfFreedom, tests[i], p[i],
            adjusted[i], estimates[i].Value - critical[i] * estimates[i].StandardError, estimates[i].Value + critical[i] * estimates[i].StandardError, level, adjustment, family.Count))];
    }

    // One multivariate t needs one number of degrees of freedom: the smallest of the family, which never claims too much.
    private static (double[] Adjusted, double[] Critical) Simultaneous(IContrastSource fit, IReadOnlyList<NamedFunction> family, Estimate[] estimates, double[] tests, double level, ulong seed, IReadOnlyList<NamedFunction>? cells)
    {
        double degreesOfFreedom = estimates.Min(each => each.DegreesOfFreedom);
        var options = new MultivariateTOptions { Seed = seed };
        MultivariateT distribution = cells is null
            ? MultivariateT.ForEstimates(fit.Covariances([.. family.Select(each => each.Function)]), degreesOfFreedom, options)
            : MultivariateT.ForContrasts(Pairs(cells.Count), fit.Covariances([.. cells.Select(each => each.Function)]), degreesOfFreedom, options);
        double critical = distribution.MaximumAbsoluteQuantile(level);
        double[] adjusted = Array.ConvertAll(tests, t => distribution.MaximumAbsoluteTail(Math.Abs(t)).Value);
        return (adjusted, [.. tests.Select(_ => critical)]);
    }

    private static double[,] Pairs(int means)
    {
        var contrasts = new double[means * (means - 1) / 2, means];
        int row = 0;
        for (int i = 0; i < means; i++)
        {
            for (int j = i + 1; j < means; j++, row++) (contrasts[row, i], contrasts[row, j]) = (1, -1);
        }

        return contrasts;
    }
}
