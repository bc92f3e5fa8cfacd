namespace TastingKit.Statistics;

/// <summary>
/// Laplace's approximation: at the modes û of the random effects, h(û) − ½ log|H|, with h the log-likelihood given the
/// effects less half their sum of squares and H its negative curvature.
/// </summary>
/// <remarks>
/// The gradient is exact: H changes with the parameters directly and through the modes, which takes third derivatives
/// of the rows' log-probabilities and one solution with H for all parameters together.
/// </remarks>
internal sealed class LaplaceLikelihood(OrdinalSystem system) : IMarginalLikelihood
{
    // Filled anew by each gradient; kept since a search asks for dozens.
    private readonly CategoryDerivatives[] _rows = new CategoryDerivatives[system.RowCount];
    private readonly double[] _leverages = new double[system.RowCount];
    private readonly double[] _covariances = new double[system.RowCount * system.Terms.Length];

    public EffectModes Modes { get; } = new(system);

    public RowState State { get; } = new(system);

    public int Evaluations { get; private set; }

    public double Value(ReadOnlySpan<double> parameters)
    {
        Evaluations++;
        if (!State.TryMove(parameters))
        {
            return double.NegativeInfinity;
        }

        double value = Modes.Find(State, parameters[system.DeviationOffset..]);
        return double.IsFinite(value) ? value - 0.5 * Modes.Effects.LogDeterminant() : double.NegativeInfinity;
    }

    public (double Value, double[] Gradient) Gradient(ReadOnlySpan<double> parameters)
    {
        double value = Value(parameters);
        if (!double.IsFinite(value))
        {
            return (value, []);
        }

        var deviations = parameters[system.DeviationOffset..];
        var effects = Modes.Effects;
        int terms = system.Terms.Length;

        // r = −½ Σ m_i ∂³ℓ_i/∂η³ q_i, then y = H⁻¹ r: what a shift of the modes does to log|H|.
        var adjoint = new double[effects.Count];
        for (int row = 0; row < _rows.Length; row++)
        {
            double weight = system.Weights is null ? 1.0 : system.Weights[row];
            double leverage = 0.0;
            State.Derivatives(row, Modes.Eta[row], ref _rows[row]);
            for (int t = 0; t < terms; t++)
            {
                double covariance = 0.0;
                for (int s = 0; s < terms; s++)
                {
                    covariance += effects.Inverse(effects.Index(t, row), effects.Index(s, row)) * effects.Share(s, row, deviations);
                }

                _covariances[row * terms + t] = covariance;
                leverage += covariance * effects.Share(t, row, deviations);
            }

            _leverages[row] = leverage;
            double push = -0.5 * weight * leverage * _rows[row].EtaEtaEta;
            for (int t = 0; t < terms; t++)
            {
                adjoint[effects.Index(t, row)] += push * effects.Share(t, row, deviations);
            }
        }

        effects.Solve(adjoint);
        var gradient = new ParameterGradient(system);
        for (int row = 0; row < _rows.Length; row++)
        {
            double weight = system.Weights is null ? 1.0 : system.Weights[row];
            ref CategoryDerivatives d = ref _rows[row];
            double half = 0.5 * _leverages[row];
            double shift = 0.0;
            for (int t = 0; t < terms; t++)
            {
                shift += adjoint[effects.Index(t, row)] * effects.Share(t, row, deviations);
            }

            double eta = weight * (d.Eta + half * d.EtaEtaEta - shift * d.EtaEta);
            gradient.Add(
                row,
                weight * (d.Hi + half * d.EtaEtaHi - shift * d.EtaHi),
                weight * (d.Lo + half * d.EtaEtaLo - shift * d.EtaLo),
                eta,
                weight * (d.Kappa + half * d.EtaEtaKappa - shift * d.EtaKappa));
            for (int t = 0; t < terms; t++)
            {
                int index = effects.Index(t, row);
                double multiplier = system.Terms[t].Multiplier is { } m ? m[row] : 1.0;
                gradient.AddDeviation(t, multiplier * (eta * Modes.Values[index]
                    + weight * d.EtaEta * _covariances[row * terms + t] - weight * d.Eta * adjoint[index]));
            }
        }

        return (value, gradient.Finish());
    }
}
