namespace TastingKit.Statistics;

/// <summary>
/// Maximises the likelihood of an ordinal model: Newton's method for the fixed parameters; with random effects, a
/// quasi-Newton search from the joint information profiled over the effects, finished by Newton steps whose Hessian is
/// taken by central differences of the exact gradient.
/// </summary>
internal sealed class OrdinalSearch
{
    private const double StartDeviation = 1.0;
    private const double SmallDeviation = 1e-3;
    private const double NearlyDone = 1e-10;
    private const double Done = 1e-16;

    private readonly OrdinalSystem _system;
    private readonly OrdinalMixedModelOptions _options;
    private readonly CancellationToken _cancellation;
    private readonly MarginalInformation _information;
    private int _iterations;

    public OrdinalSearch(OrdinalSystem system, OrdinalMixedModelOptions options, CancellationToken cancellation)
    {
        _system = system;
        _options = options;
        _cancellation = cancellation;
        _information = new MarginalInformation(system, cancellation);
    }

    public OrdinalOptimum Run()
    {
        double[] start = Start();
        return _system.Terms.Length == 0 ? FixedOnly(start) : Mixed(start);
    }

    /// <summary>Thresholds at the observed shares of the categories, every effect at zero.</summary>
    private double[] Start()
    {
        var counts = new double[_system.CategoryCount];
        for (int row = 0; row < _system.RowCount; row++)
        {
            counts[_system.Categories[row]] += _system.Weights is null ? 1.0 : _system.Weights[row];
        }

        double total = counts.Sum();
        var thresholds = new double[_system.CategoryCount - 1];
        double below = 0.0;
        for (int j = 0; j < thresholds.Length; j++)
        {
            below += counts[j] / total;
            double p = Math.Clamp(below, 1e-6, 1.0 - 1e-6);
            thresholds[j] = _system.Link == OrdinalLink.Logit ? PortableMath.Log(p / (1.0 - p)) : StandardNormal.Quantile(p);
        }

        var parameters = new double[_system.ParameterCount];
        double[] projected = _system.Map.Project(thresholds);
        if (!Rises(projected))
        {
            // A structure that the shares do not nearly have: start from even steps, which every structure contains.
            for (int j = 0; j < thresholds.Length; j++)
            {
                thresholds[j] = j - 0.5 * (thresholds.Length - 1);
            }

            projected = _system.Map.Project(thresholds);
        }

        projected.CopyTo(parameters, 0);
        return parameters;
    }

    private bool Rises(double[] parameters)
    {
        var probe = new double[_system.ParameterCount];
        parameters.CopyTo(probe, 0);
        return new RowState(_system).TryMove(probe);
    }

    private OrdinalOptimum FixedOnly(double[] parameters)
    {
        var state = new RowState(_system);
        state.TryMove(parameters);
        int evaluations = 1;
        int count = _system.DeviationOffset;
        for (; ; _iterations++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var (value, gradient, hessian) = ConditionalLikelihood.Evaluate(_system, state, state.Eta);
            evaluations++;
            var information = InformationMatrix.Negative(hessian);
            var factor = SmallCholesky.TryFactor(information);
            double[] step = (factor ?? InformationMatrix.Damped(information)).Solve(gradient[..count]);
            double decrement = SmallMatrix.Dot(step, gradient);
            if (decrement < Done * (1.0 + Math.Abs(value)) || _iterations >= _options.MaximumIterations)
            {
                bool converged = factor is not null && decrement < Done * (1.0 + Math.Abs(value));
                return new OrdinalOptimum(parameters, value, information, [], null, Record(converged, evaluations, gradient, decrement));
            }

            double length = 1.0;
            var trial = (double[])parameters.Clone();
            while (true)
            {
                for (int i = 0; i < count; i++)
                {
                    trial[i] = parameters[i] + length * step[i];
                }

                evaluations++;
                double next = state.TryMove(trial) ? ConditionalLikelihood.Value(_system, state, state.Eta) : double.NegativeInfinity;
                if (next >= value - 1e-12 * Math.Abs(value))
                {
                    break;
                }

                length *= 0.5;
                if (length < 1e-10)
                {
                    state.TryMove(parameters);
                    return new OrdinalOptimum(parameters, value, information, [], null, Record(decrement < 1e-9, evaluations, gradient, decrement));
                }
            }

            parameters = trial;
        }
    }

    private OrdinalOptimum Mixed(double[] start)
    {
        IMarginalLikelihood likelihood = _options.QuadraturePoints == 1
            ? new LaplaceLikelihood(_system)
            : new QuadratureLikelihood(_system, _options.QuadraturePoints);
        double[] parameters = FixedOnly(start).Parameters;
        var free = Enumerable.Range(0, _system.ParameterCount).ToList();
        for (int t = 0; t < _system.Terms.Length; t++)
        {
            parameters[_system.DeviationOffset + t] = StartDeviation;
        }

        for (int round = 0; ; round++)
        {
            bool settled = Climb(likelihood, ref parameters, free);
            var (vanishing, wrong) = Vanishing(likelihood, parameters, free);
            if (vanishing.Count == 0 && wrong.Count == 0)
            {
                return Finish(likelihood, parameters, free, settled);
            }

            if (round > 2 * _system.Terms.Length + 2)
            {
                return Finish(likelihood, parameters, free, false);
            }

            foreach (int index in vanishing)
            {
                parameters[index] = 0.0;
                free.Remove(index);
            }

            foreach (int index in wrong)
            {
                parameters[index] = 0.3 * StartDeviation;
                if (!free.Contains(index))
                {
                    free.Add(index);
                    free.Sort();
                }
            }
        }
    }

    /// <summary>Quasi-Newton steps until the predicted gain is small; false if they stop short of it.</summary>
    private bool Climb(IMarginalLikelihood likelihood, ref double[] parameters, List<int> free)
    {
        var (value, gradient) = likelihood.Gradient(parameters);
        if (!double.IsFinite(value))
        {
            throw new ModelException("The likelihood can't be evaluated where the search starts; covariates are probably on a scale of very large numbers.");
        }

        double[,] information = _information.Approximate(likelihood, parameters, gradient, free);
        while (_iterations < _options.MaximumIterations)
        {
            _cancellation.ThrowIfCancellationRequested();
            _iterations++;
            double[] g = Select(gradient, free);
            double[] step = SmallCholesky.Factor(information).Solve(g);
            double decrement = SmallMatrix.Dot(g, step);
            if (decrement < NearlyDone)
            {
                return true;
            }

            if (KeepDeviationsPositive(information, g, parameters, step, free))
            {
                // Whether zero is where this one belongs is not for the climb to say.
                return true;
            }

            double gain = SmallMatrix.Dot(g, step);
            double length = 1.0;
            double[] trial;
            double nextValue;
            double[] nextGradient;
            while (true)
            {
                trial = Moved(parameters, step, length, free);
                (nextValue, nextGradient) = likelihood.Gradient(trial);
                if (nextValue >= value + 1e-4 * length * gain)
                {
                    break;
                }

                length *= 0.5;
                if (length < 1e-8)
                {
                    return false;
                }
            }

            InformationMatrix.Update(information, Select(trial, free), Select(parameters, free), Select(nextGradient, free), g);
            parameters = trial;
            value = nextValue;
            gradient = nextGradient;
        }

        return false;
    }

    /// <summary>
    /// Standard deviations that fall to zero, and those held at zero that should not be. The likelihood is even in a
    /// standard deviation, so that zero is always a stationary point: its slope just beside zero decides.
    /// </summary>
    private (List<int> Vanishing, List<int> Wrong) Vanishing(IMarginalLikelihood likelihood, double[] parameters, List<int> free)
    {
        List<int> vanishing = [];
        List<int> wrong = [];
        for (int t = 0; t < _system.Terms.Length; t++)
        {
            int index = _system.DeviationOffset + t;
            bool isFree = free.Contains(index);
            if (isFree && parameters[index] > 20.0 * SmallDeviation)
            {
                continue;
            }

            var probe = (double[])parameters.Clone();
            probe[index] = SmallDeviation;
            double slope = likelihood.Gradient(probe).Gradient[index];
            if (isFree && slope <= 0.0)
            {
                vanishing.Add(index);
            }
            else if (slope > 1e-9 && (!isFree || parameters[index] <= SmallDeviation))
            {
                wrong.Add(index);
            }
        }

        return (vanishing, wrong);
    }

    private OrdinalOptimum Finish(IMarginalLikelihood likelihood, double[] parameters, List<int> free, bool settled)
    {
        double[,] information = _information.Differenced(likelihood, parameters, free);
        var (value, gradient) = likelihood.Gradient(parameters);
        var factor = SmallCholesky.TryFactor(information);
        double decrement = double.PositiveInfinity;
        double moved = 0.0;
        for (int i = 0; i < 12 && factor is not null; i++)
        {
            _iterations++;
            double[] g = Select(gradient, free);
            double[] step = factor.Solve(g);
            decrement = SmallMatrix.Dot(g, step);
            if (decrement < Done * (1.0 + Math.Abs(value)))
            {
                break;
            }

            double[] trial = Moved(parameters, step, 1.0, free);
            var (next, nextGradient) = likelihood.Gradient(trial);
            if (!(next >= value - 1e-9 * (1.0 + Math.Abs(value))))
            {
                break;
            }

            moved += decrement;
            (parameters, value, gradient) = (trial, next, nextGradient);
        }

        // The information was taken where the last steps began; if they led away, it is taken again.
        if (moved > 1e-9)
        {
            information = _information.Differenced(likelihood, parameters, free);
            factor = SmallCholesky.TryFactor(information);
        }

        for (int t = 0; t < _system.Terms.Length; t++)
        {
            int index = _system.DeviationOffset + t;
            parameters[index] = Math.Abs(parameters[index]);
        }

        (value, gradient) = likelihood.Gradient(parameters);
        bool converged = settled && factor is not null && decrement < 1e-10 * (1.0 + Math.Abs(value));
        return new OrdinalOptimum(
            parameters,
            value,
            information,
            [.. Enumerable.Range(0, _system.ParameterCount).Except(free)],
            likelihood,
            Record(converged, likelihood.Evaluations, Select(gradient, free), decrement));
    }

    private Convergence Record(bool converged, int evaluations, double[] gradient, double decrement)
    {
        string reason = converged
            ? "the predicted gain fell below the tolerance"
            : _iterations >= _options.MaximumIterations
                ? $"the limit of {_options.MaximumIterations} iterations was reached"
                : "no step raised the likelihood, or the information is not positive definite: some coefficient may be infinite";
        return new Convergence(converged, reason, _iterations, evaluations, 1, gradient.Max(Math.Abs), Math.Max(0.0, 0.5 * decrement));
    }

    // A standard deviation may fall to a tenth in one step, no further: beyond zero the likelihood only mirrors itself.
    // The other parameters then go where the quadratic model is highest beside those that are held back, which keeps the
    // step uphill. True once a standard deviation is next to nothing and still falls.
    private bool KeepDeviationsPositive(double[,] information, double[] gradient, double[] parameters, double[] step, List<int> free)
    {
        bool vanishes = false;
        var open = Enumerable.Range(0, step.Length).ToList();
        while (open.FindAll(i => free[i] >= _system.DeviationOffset && step[i] < -0.9 * parameters[free[i]]) is { Count: > 0 } held)
        {
            foreach (int i in held)
            {
                step[i] = -0.9 * parameters[free[i]];
                vanishes |= parameters[free[i]] < SmallDeviation;
                open.Remove(i);
            }

            var reduced = new double[open.Count, open.Count];
            var right = new double[open.Count];
            for (int a = 0; a < open.Count; a++)
            {
                right[a] = gradient[open[a]];
                for (int i = 0; i < step.Length; i++)
                {
                    right[a] -= open.Contains(i) ? 0.0 : information[open[a], i] * step[i];
                }

                for (int b = 0; b < open.Count; b++)
                {
                    reduced[a, b] = information[open[a], open[b]];
                }
            }

            double[] solved = SmallCholesky.Factor(reduced).Solve(right);
            for (int a = 0; a < open.Count; a++)
            {
                step[open[a]] = solved[a];
            }
        }

        return vanishes;
    }

    private static double[] Moved(double[] parameters, double[] step, double length, List<int> free)
    {
        var moved = (double[])parameters.Clone();
        for (int i = 0; i < step.Length; i++)
        {
            moved[free[i]] += length * step[i];
        }

        return moved;
    }

    private static double[] Select(double[] values, List<int> indices) => [.. indices.Select(i => values[i])];
}
