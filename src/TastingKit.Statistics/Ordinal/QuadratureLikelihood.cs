namespace TastingKit.Statistics;

/// <summary>
/// Adaptive Gauss–Hermite quadrature over the effect of a single random term: nodes centred at each level's mode and
/// scaled by its curvature (Pinheiro and Bates 1995). The gradient is exact, the movement of the nodes included.
/// </summary>
internal sealed class QuadratureLikelihood : IMarginalLikelihood
{
    private readonly OrdinalSystem _system;
    private readonly GaussHermite _rule;
    private readonly double[] _logTerms;

    public QuadratureLikelihood(OrdinalSystem system, int points)
    {
        _system = system;
        _rule = GaussHermite.Of(points);
        Modes = new EffectModes(system);
        State = new RowState(system);
        _logTerms = new double[Modes.Effects.Count * points];
    }

    public EffectModes Modes { get; }

    public RowState State { get; }

    public int Evaluations { get; private set; }

    public double Value(ReadOnlySpan<double> parameters)
    {
        Evaluations++;
        double deviation = parameters[_system.DeviationOffset];
        if (!State.TryMove(parameters) || !double.IsFinite(Modes.Find(State, parameters[_system.DeviationOffset..])))
        {
            return double.NegativeInfinity;
        }

        int points = _rule.Nodes.Length;
        int levels = Modes.Effects.Count;
        for (int level = 0; level < levels; level++)
        {
            for (int k = 0; k < points; k++)
            {
                double u = Node(level, k);
                _logTerms[level * points + k] = _rule.LogWeights[k] + _rule.Nodes[k] * _rule.Nodes[k] - 0.5 * u * u;
            }
        }

        for (int row = 0; row < _system.RowCount; row++)
        {
            int level = Modes.Effects.Index(0, row);
            double share = Share(row, deviation);
            double weight = _system.Weights is null ? 1.0 : _system.Weights[row];
            for (int k = 0; k < points; k++)
            {
                _logTerms[level * points + k] += weight * State.LogAndSlopes(row, State.Eta[row] + share * Node(level, k), out _, out _);
            }
        }

        // The constant √2 τ / √(2π) of each level: its τ is H^(−1/2).
        double value = 0.0;
        for (int level = 0; level < levels; level++)
        {
            Span<double> terms = _logTerms.AsSpan(level * points, points);
            double largest = double.NegativeInfinity;
            foreach (double term in terms)
            {
                largest = Math.Max(largest, term);
            }

            double sum = 0.0;
            for (int k = 0; k < points; k++)
            {
                terms[k] = PortableMath.Exp(terms[k] - largest);
                sum += terms[k];
            }

            for (int k = 0; k < points; k++)
            {
                terms[k] /= sum;
            }

            value += largest + PortableMath.Log(sum) + 0.5 * PortableMath.Log(Modes.Effects.Inverse(level, level) / Math.PI);
        }

        return value;
    }

    public (double Value, double[] Gradient) Gradient(ReadOnlySpan<double> parameters)
    {
        double value = Value(parameters);
        if (!double.IsFinite(value))
        {
            return (value, []);
        }

        double deviation = parameters[_system.DeviationOffset];
        int points = _rule.Nodes.Length;
        int levels = Modes.Effects.Count;
        var gradient = new ParameterGradient(_system);
        var d = default(CategoryDerivatives);

        // By level: Σ ω g′(u) and √2 Σ ω x g′(u), with ω the posterior weights of the nodes, and Σ ∂³ℓ/∂η³ q³ at the mode.
        var slopes = new double[levels];
        var moments = new double[levels];
        var thirds = new double[levels];
        for (int level = 0; level < levels; level++)
        {
            for (int k = 0; k < points; k++)
            {
                double omega = _logTerms[level * points + k];
                slopes[level] -= omega * Node(level, k);
                moments[level] -= Math.Sqrt(2.0) * omega * _rule.Nodes[k] * Node(level, k);
            }
        }

        for (int row = 0; row < _system.RowCount; row++)
        {
            int level = Modes.Effects.Index(0, row);
            double share = Share(row, deviation);
            double weight = _system.Weights is null ? 1.0 : _system.Weights[row];
            double hi = 0.0;
            double lo = 0.0;
            double eta = 0.0;
            double kappa = 0.0;
            double product = 0.0;
            double moment = 0.0;
            for (int k = 0; k < points; k++)
            {
                double omega = weight * _logTerms[level * points + k];
                double u = Node(level, k);
                State.Derivatives(row, State.Eta[row] + share * u, ref d);
                hi += omega * d.Hi;
                lo += omega * d.Lo;
                eta += omega * d.Eta;
                kappa += omega * d.Kappa;
                product += omega * d.Eta * u;
                moment += omega * d.Eta * _rule.Nodes[k];
            }

            slopes[level] += share * eta;
            moments[level] += Math.Sqrt(2.0) * share * moment;
            gradient.Add(row, hi, lo, eta, kappa);
            gradient.AddDeviation(0, Multiplier(row) * product);
            State.Derivatives(row, Modes.Eta[row], ref d);
            thirds[level] += weight * d.EtaEtaEta * share * share * share;
        }

        AddNodeMovement(deviation, slopes, moments, thirds, gradient);
        return (value, gradient.Finish());
    }

    /// <summary>Adds what the gradient gains since the nodes follow the mode û and its spread τ.</summary>
    private void AddNodeMovement(double deviation, double[] slopes, double[] moments, double[] thirds, ParameterGradient gradient)
    {
        var d = default(CategoryDerivatives);
        for (int row = 0; row < _system.RowCount; row++)
        {
            int level = Modes.Effects.Index(0, row);
            double weight = _system.Weights is null ? 1.0 : _system.Weights[row];
            double share = Share(row, deviation);
            double inverse = Modes.Effects.Inverse(level, level);
            double tau = Math.Sqrt(inverse);

            // τ = H^(−1/2): ∂τ = ½ τ³ Σ (∂(∂²ℓ/∂η²) q² + …), part of it through û, of which ∂û = Σ ∂(∂ℓ/∂η) q / H.
            double spread = 0.5 * (moments[level] + 1.0 / tau) * tau * inverse;
            double mode = (slopes[level] + spread * thirds[level]) * inverse;
            State.Derivatives(row, Modes.Eta[row], ref d);
            double first = weight * mode * share;
            double second = weight * spread * share * share;
            gradient.Add(
                row,
                first * d.EtaHi + second * d.EtaEtaHi,
                first * d.EtaLo + second * d.EtaEtaLo,
                first * d.EtaEta + second * d.EtaEtaEta,
                first * d.EtaKappa + second * d.EtaEtaKappa);
            double multiplier = Multiplier(row);
            double effect = multiplier * Modes.Values[level];
            gradient.AddDeviation(
                0,
                first * d.EtaEta * effect + second * d.EtaEtaEta * effect
                + weight * mode * d.Eta * multiplier + 2.0 * weight * spread * d.EtaEta * share * multiplier);
        }
    }

    private double Node(int level, int k) => Modes.Values[level] + Math.Sqrt(2.0 * Modes.Effects.Inverse(level, level)) * _rule.Nodes[k];

    private double Multiplier(int row) => _system.Terms[0].Multiplier is { } m ? m[row] : 1.0;

    private double Share(int row, double deviation) => deviation * Multiplier(row);
}
