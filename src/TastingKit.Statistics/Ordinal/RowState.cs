namespace TastingKit.Statistics;

/// <summary>What a row's probability depends on at given parameters, before random effects: thresholds, location, scale.</summary>
internal sealed class RowState
{
    private readonly OrdinalSystem _system;
    private readonly double[][] _thresholds;

    public RowState(OrdinalSystem system)
    {
        _system = system;
        Hi = new double[system.RowCount];
        Lo = new double[system.RowCount];
        Eta = new double[system.RowCount];
        InverseScale = new double[system.RowCount];
        Gap = new double[system.RowCount];
        _thresholds = new double[system.Nominal.Length][];
    }

    public double[] Hi { get; }

    public double[] Lo { get; }

    public double[] Eta { get; }

    public double[] InverseScale { get; }

    /// <summary>1 − e^(−(hi − lo)/scale), which does not change with the effects.</summary>
    public double[] Gap { get; }

    /// <summary>Moves to other parameters; false where some row's thresholds don't rise, so that its probability is not positive.</summary>
    public bool TryMove(ReadOnlySpan<double> parameters)
    {
        for (int c = 0; c < _thresholds.Length; c++)
        {
            _thresholds[c] = Thresholds(parameters.Slice(c * _system.Map.ParameterCount, _system.Map.ParameterCount));
        }

        if (!Rises(_thresholds[0]) && _thresholds.Length == 1)
        {
            return false;
        }

        Combine(_system.Location, parameters.Slice(_system.LocationOffset, _system.Location.Length), Eta);
        Combine(_system.Scale, parameters.Slice(_system.ScaleOffset, _system.Scale.Length), InverseScale);
        int last = _system.CategoryCount - 1;
        for (int row = 0; row < Hi.Length; row++)
        {
            int category = _system.Categories[row];
            Hi[row] = category == last ? double.PositiveInfinity : At(row, category);
            Lo[row] = category == 0 ? double.NegativeInfinity : At(row, category - 1);
            if (!(Hi[row] > Lo[row]))
            {
                return false;
            }

            double logScale = InverseScale[row];
            InverseScale[row] = logScale == 0.0 ? 1.0 : PortableMath.Exp(-logScale);
            Gap[row] = _system.Link == OrdinalLink.Logit ? CategoryDerivatives.Gap(Hi[row], Lo[row], InverseScale[row]) : 1.0;
        }

        return true;
    }

    /// <summary>A row's derivatives at a location.</summary>
    public void Derivatives(int row, double eta, ref CategoryDerivatives d) =>
        CategoryDerivatives.Evaluate(_system.Link, Hi[row], Lo[row], Gap[row], eta, InverseScale[row], ref d);

    /// <summary>A row's log-probability at a location, with its first two derivatives in it.</summary>
    public double LogAndSlopes(int row, double eta, out double slope, out double curvature) =>
        CategoryDerivatives.LogAndSlopes(_system.Link, Hi[row], Lo[row], Gap[row], eta, InverseScale[row], out slope, out curvature);

    private double At(int row, int threshold)
    {
        double sum = _thresholds[0][threshold];
        for (int c = 1; c < _thresholds.Length; c++)
        {
            sum += _system.Nominal[c][row] * _thresholds[c][threshold];
        }

        return sum;
    }

    private double[] Thresholds(ReadOnlySpan<double> parameters)
    {
        var thresholds = new double[_system.Map.ThresholdCount];
        for (int j = 0; j < thresholds.Length; j++)
        {
            for (int k = 0; k < parameters.Length; k++)
            {
                thresholds[j] += _system.Map.Jacobian[j, k] * parameters[k];
            }
        }

        return thresholds;
    }

    private static bool Rises(double[] thresholds)
    {
        for (int j = 1; j < thresholds.Length; j++)
        {
            if (!(thresholds[j] > thresholds[j - 1]))
            {
                return false;
            }
        }

        return true;
    }

    private static void Combine(double[][] columns, ReadOnlySpan<double> coefficients, double[] target)
    {
        Array.Clear(target);
        for (int c = 0; c < columns.Length; c++)
        {
            double coefficient = coefficients[c];
            double[] column = columns[c];
            for (int row = 0; row < target.Length; row++)
            {
                target[row] += coefficient * column[row];
            }
        }
    }
}
