namespace TastingKit.Statistics;

/// <summary>Gathers derivatives in a row's thresholds, location and log scale into derivatives in the parameters.</summary>
internal sealed class ParameterGradient
{
    private readonly OrdinalSystem _system;
    private readonly double[] _gradient;
    private readonly double[][] _thresholds;

    public ParameterGradient(OrdinalSystem system)
    {
        _system = system;
        _gradient = new double[system.ParameterCount];
        _thresholds = new double[system.Nominal.Length][];
        for (int c = 0; c < _thresholds.Length; c++)
        {
            _thresholds[c] = new double[system.Map.ThresholdCount];
        }
    }

    /// <summary>Adds one row's derivatives, its weight multiplied in.</summary>
    public void Add(int row, double hi, double lo, double eta, double kappa)
    {
        int category = _system.Categories[row];
        for (int c = 0; c < _thresholds.Length; c++)
        {
            double w = c == 0 ? 1.0 : _system.Nominal[c][row];
            if (category < _system.CategoryCount - 1)
            {
                _thresholds[c][category] += w * hi;
            }

            if (category > 0)
            {
                _thresholds[c][category - 1] += w * lo;
            }
        }

        for (int k = 0; k < _system.Location.Length; k++)
        {
            _gradient[_system.LocationOffset + k] += _system.Location[k][row] * eta;
        }

        for (int k = 0; k < _system.Scale.Length; k++)
        {
            _gradient[_system.ScaleOffset + k] += _system.Scale[k][row] * kappa;
        }
    }

    /// <summary>Adds to the derivative in a term's standard deviation.</summary>
    public void AddDeviation(int term, double value) => _gradient[_system.DeviationOffset + term] += value;

    /// <summary>The derivatives in all parameters.</summary>
    public double[] Finish()
    {
        int width = _system.Map.ParameterCount;
        for (int c = 0; c < _thresholds.Length; c++)
        {
            for (int k = 0; k < width; k++)
            {
                for (int j = 0; j < _thresholds[c].Length; j++)
                {
                    _gradient[c * width + k] += _system.Map.Jacobian[j, k] * _thresholds[c][j];
                }
            }
        }

        return _gradient;
    }
}
