namespace TastingKit.Statistics;

/// <summary>
/// The most probable standardised random effects at given parameters, by Newton's method with step halving. What was
/// found last is where the next search starts.
/// </summary>
internal sealed class EffectModes
{
    private const int MaximumIterations = 100;

    // Newton's error is squared by each step: after one this short the modes are right to about its square.
    private const double LastStep = 1e-6;

    private readonly OrdinalSystem _system;
    private readonly double[] _effects;
    private readonly double[] _curvature;

    public EffectModes(OrdinalSystem system)
    {
        _system = system;
        Effects = new EffectSystem(system.Terms);
        _effects = new double[Effects.Count];
        _curvature = new double[system.RowCount];
        Eta = new double[system.RowCount];
    }

    /// <summary>The information of the effects at the modes, factored.</summary>
    public EffectSystem Effects { get; }

    /// <summary>The modes, on the scale on which each effect has variance one.</summary>
    public double[] Values => _effects;

    /// <summary>The rows' locations at the modes.</summary>
    public double[] Eta { get; }

    /// <summary>Finds the modes; the value is the log-likelihood given them, less half their sum of squares.</summary>
    /// <returns>Minus infinity where no search succeeds.</returns>
    public double Find(RowState state, ReadOnlySpan<double> deviations)
    {
        var gradient = new double[_effects.Length];
        double value = Evaluate(state, deviations, _effects, gradient);
        if (!double.IsFinite(value))
        {
            Array.Clear(_effects);
            value = Evaluate(state, deviations, _effects, gradient);
            if (!double.IsFinite(value))
            {
                return double.NegativeInfinity;
            }
        }

        var trial = new double[_effects.Length];
        for (int iteration = 0; iteration < MaximumIterations; iteration++)
        {
            Effects.Factor(_curvature, deviations);
            double[] step = (double[])gradient.Clone();
            Effects.Solve(step);
            double largest = 0.0;
            foreach (double s in step)
            {
                largest = Math.Max(largest, Math.Abs(s));
            }

            double next;
            for (double length = 1.0; ; length *= 0.5)
            {
                for (int i = 0; i < trial.Length; i++)
                {
                    trial[i] = _effects[i] + length * step[i];
                }

                next = Evaluate(state, deviations, trial, gradient);
                if (next >= value - 1e-9 * Math.Abs(value) || length < 1e-8)
                {
                    largest *= length;
                    break;
                }
            }

            value = next;
            trial.CopyTo(_effects, 0);
            if (largest < LastStep)
            {
                break;
            }
        }

        Effects.Factor(_curvature, deviations);
        return value;
    }

    /// <summary>The value, its gradient in the effects, and the rows' curvature, in one pass.</summary>
    private double Evaluate(RowState state, ReadOnlySpan<double> deviations, double[] effects, double[] gradient)
    {
        double value = 0.0;
        for (int i = 0; i < effects.Length; i++)
        {
            value -= 0.5 * effects[i] * effects[i];
            gradient[i] = -effects[i];
        }

        for (int row = 0; row < Eta.Length; row++)
        {
            double eta = state.Eta[row];
            for (int t = 0; t < _system.Terms.Length; t++)
            {
                eta += Effects.Share(t, row, deviations) * effects[Effects.Index(t, row)];
            }

            Eta[row] = eta;
            double weight = _system.Weights is null ? 1.0 : _system.Weights[row];
            value += weight * state.LogAndSlopes(row, eta, out double slope, out double curvature);
            _curvature[row] = -weight * curvature;
            for (int t = 0; t < _system.Terms.Length; t++)
            {
                gradient[Effects.Index(t, row)] += weight * slope * Effects.Share(t, row, deviations);
            }
        }

        return value;
    }
}
