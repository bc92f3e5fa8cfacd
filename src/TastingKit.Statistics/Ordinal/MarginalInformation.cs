namespace TastingKit.Statistics;

/// <summary>The information of a marginal likelihood: quickly and nearly for a search, by differences of the exact gradient for its end.</summary>
internal sealed class MarginalInformation(OrdinalSystem system, CancellationToken cancellation)
{
    // In conditional standard errors; the error of a central difference falls with its square.
    private const double DifferenceStep = 1e-3;

    /// <summary>
    /// The information of the conditional likelihood with the effects profiled out, and the standard deviations' rows by
    /// differences of the gradient: close to the information of the marginal likelihood at a fraction of its price.
    /// </summary>
    public double[,] Approximate(IMarginalLikelihood likelihood, double[] parameters, double[] gradient, List<int> free)
    {
        int fixedCount = system.DeviationOffset;
        double[,] profile = Profiled(likelihood, parameters);
        int n = free.Count;
        var information = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                if (free[i] < fixedCount && free[j] < fixedCount)
                {
                    information[i, j] = profile[free[i], free[j]];
                }
            }
        }

        for (int j = 0; j < n; j++)
        {
            if (free[j] < fixedCount)
            {
                continue;
            }

            double step = 1e-3 * Math.Max(parameters[free[j]], 0.1);
            var probe = (double[])parameters.Clone();
            probe[free[j]] += step;
            double[] shifted = likelihood.Gradient(probe).Gradient;
            for (int i = 0; i < n && shifted.Length > 0; i++)
            {
                information[i, j] = information[j, i] = -(shifted[free[i]] - gradient[free[i]]) / step;
            }
        }

        if (SmallCholesky.TryFactor(information) is null)
        {
            MakeDefinite(information, parameters, free);
        }

        return information;
    }

    // Far from the optimum the likelihood may bend upwards along a standard deviation; its steps are then as long as the bend allows.
    private void MakeDefinite(double[,] information, double[] parameters, List<int> free)
    {
        int n = free.Count;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                if (i != j && (free[i] >= system.DeviationOffset || free[j] >= system.DeviationOffset))
                {
                    information[i, j] = 0.0;
                }
            }

            if (free[i] >= system.DeviationOffset)
            {
                information[i, i] = Math.Max(Math.Abs(information[i, i]), 1.0 / (parameters[free[i]] * parameters[free[i]] + 1e-4));
            }
        }

        for (double share = 1e-8; SmallCholesky.TryFactor(information) is null; share *= 10.0)
        {
            InformationMatrix.Damp(information, share);
        }
    }

    private double[,] Profiled(IMarginalLikelihood likelihood, double[] parameters)
    {
        var modes = likelihood.Modes;
        var state = likelihood.State;
        var deviations = parameters.AsSpan(system.DeviationOffset);
        var (_, _, hessian) = ConditionalLikelihood.Evaluate(system, state, modes.Eta);
        int count = system.DeviationOffset;
        var cross = new ParameterGradient[modes.Effects.Count];
        for (int i = 0; i < cross.Length; i++)
        {
            cross[i] = new ParameterGradient(system);
        }

        var d = default(CategoryDerivatives);
        for (int row = 0; row < system.RowCount; row++)
        {
            double weight = system.Weights is null ? 1.0 : system.Weights[row];
            state.Derivatives(row, modes.Eta[row], ref d);
            for (int t = 0; t < system.Terms.Length; t++)
            {
                double share = weight * modes.Effects.Share(t, row, deviations);
                cross[modes.Effects.Index(t, row)].Add(row, share * d.EtaHi, share * d.EtaLo, share * d.EtaEta, share * d.EtaKappa);
            }
        }

        double[][] columns = Array.ConvertAll(cross, c => c.Finish());
        var information = InformationMatrix.Negative(hessian);
        var solved = new double[modes.Effects.Count];
        for (int a = 0; a < count; a++)
        {
            for (int i = 0; i < solved.Length; i++)
            {
                solved[i] = columns[i][a];
            }

            modes.Effects.Solve(solved);
            for (int b = 0; b < count; b++)
            {
                double sum = 0.0;
                for (int i = 0; i < solved.Length; i++)
                {
                    sum += columns[i][b] * solved[i];
                }

                information[a, b] -= sum;
            }
        }

        return information;
    }

    /// <summary>The observed information in the free parameters by central differences of the gradient.</summary>
    public double[,] Differenced(IMarginalLikelihood likelihood, double[] parameters, List<int> free)
    {
        var (_, gradient) = likelihood.Gradient(parameters);
        double[,] approximate = Approximate(likelihood, parameters, gradient, free);
        int n = free.Count;
        var information = new double[n, n];
        for (int j = 0; j < n; j++)
        {
            cancellation.ThrowIfCancellationRequested();
            double curvature = approximate[j, j];
            double step = DifferenceStep * (curvature > 0.0 ? 1.0 / Math.Sqrt(curvature) : Math.Max(0.1, Math.Abs(parameters[free[j]])));
            if (free[j] >= system.DeviationOffset)
            {
                step = Math.Min(step, 0.1 * parameters[free[j]]);
            }

            double[]? above = null;
            double[]? below = null;
            for (int attempt = 0; attempt < 20 && (above is null || below is null); attempt++)
            {
                above = Shifted(likelihood, parameters, free[j], step);
                below = Shifted(likelihood, parameters, free[j], -step);
                step = above is null || below is null ? 0.1 * step : step;
            }

            for (int i = 0; i < n && above is not null && below is not null; i++)
            {
                information[i, j] = -(above[free[i]] - below[free[i]]) / (2.0 * step);
            }
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < i; j++)
            {
                information[i, j] = information[j, i] = 0.5 * (information[i, j] + information[j, i]);
            }
        }

        return information;
    }

    private static double[]? Shifted(IMarginalLikelihood likelihood, double[] parameters, int index, double step)
    {
        var probe = (double[])parameters.Clone();
        probe[index] += step;
        var (value, gradient) = likelihood.Gradient(probe);
        return double.IsFinite(value) ? gradient : null;
    }
}
