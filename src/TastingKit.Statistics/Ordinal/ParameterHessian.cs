namespace TastingKit.Statistics;

/// <summary>Gathers second derivatives of rows into the Hessian in thresholds, location and scale.</summary>
internal sealed class ParameterHessian
{
    private readonly OrdinalSystem _system;
    private readonly int _thresholds;
    private readonly int _location;
    private readonly int _scale;

    // Over raw thresholds (all of each nominal column), location and scale; the thresholds' own parameters come at the end.
    private readonly double[,] _raw;

    public ParameterHessian(OrdinalSystem system)
    {
        _system = system;
        _thresholds = system.Map.ThresholdCount * system.Nominal.Length;
        _location = _thresholds;
        _scale = _location + system.Location.Length;
        int size = _scale + system.Scale.Length;
        _raw = new double[size, size];
    }

    /// <summary>Adds one row's second derivatives.</summary>
    public void Add(int row, double weight, in CategoryDerivatives d)
    {
        int category = _system.Categories[row];
        int hi = category < _system.CategoryCount - 1 ? category : -1;
        int lo = category - 1;
        for (int c = 0; c < _system.Nominal.Length; c++)
        {
            double wc = weight * (c == 0 ? 1.0 : _system.Nominal[c][row]);
            if (wc == 0.0)
            {
                continue;
            }

            int block = c * _system.Map.ThresholdCount;
            for (int e = 0; e <= c; e++)
            {
                double w = wc * (e == 0 ? 1.0 : _system.Nominal[e][row]);
                AddThresholds(block, e * _system.Map.ThresholdCount, hi, lo, w, in d);
            }

            AddCross(row, hi < 0 ? -1 : block + hi, wc * d.EtaHi, wc * d.HiKappa);
            AddCross(row, lo < 0 ? -1 : block + lo, wc * d.EtaLo, wc * d.LoKappa);
        }

        for (int k = 0; k < _system.Location.Length; k++)
        {
            AddCross(row, _location + k, weight * _system.Location[k][row] * d.EtaEta, weight * _system.Location[k][row] * d.EtaKappa);
        }

        for (int k = 0; k < _system.Scale.Length; k++)
        {
            double value = weight * _system.Scale[k][row] * d.KappaKappa;
            for (int l = 0; l < _system.Scale.Length; l++)
            {
                _raw[_scale + k, _scale + l] += value * _system.Scale[l][row];
            }
        }
    }

    /// <summary>The symmetric Hessian in the parameters before the standard deviations.</summary>
    public double[,] Finish()
    {
        int raw = _raw.GetLength(0);
        int width = _system.Map.ParameterCount;
        int count = _system.DeviationOffset;
        var map = new double[raw, count];
        for (int c = 0; c < _system.Nominal.Length; c++)
        {
            for (int j = 0; j < _system.Map.ThresholdCount; j++)
            {
                for (int k = 0; k < width; k++)
                {
                    map[c * _system.Map.ThresholdCount + j, c * width + k] = _system.Map.Jacobian[j, k];
                }
            }
        }

        for (int i = 0; i < raw - _thresholds; i++)
        {
            map[_thresholds + i, _system.LocationOffset + i] = 1.0;
        }

        for (int i = 0; i < raw; i++)
        {
            for (int j = 0; j < raw; j++)
            {
                // Thresholds of different nominal columns, and crosses, were added to one side only.
                if (i < _thresholds && j < i && i / _system.Map.ThresholdCount != j / _system.Map.ThresholdCount)
                {
                    _raw[j, i] = _raw[i, j];
                }
                else if (i >= _thresholds && j < _thresholds)
                {
                    _raw[i, j] = _raw[j, i];
                }
                else if (i >= _scale && j >= _location && j < _scale)
                {
                    _raw[i, j] = _raw[j, i];
                }
            }
        }

        double[,] half = SmallMatrix.Times(_raw, map);
        var hessian = new double[count, count];
        for (int a = 0; a < count; a++)
        {
            for (int b = 0; b < count; b++)
            {
                double sum = 0.0;
                for (int i = 0; i < raw; i++)
                {
                    sum += map[i, a] * half[i, b];
                }

                hessian[a, b] = sum;
            }
        }

        return hessian;
    }

    private void AddThresholds(int block, int other, int hi, int lo, double w, in CategoryDerivatives d)
    {
        if (hi >= 0)
        {
            _raw[block + hi, other + hi] += w * d.HiHi;
        }

        if (lo >= 0)
        {
            _raw[block + lo, other + lo] += w * d.LoLo;
        }

        if (hi >= 0 && lo >= 0)
        {
            _raw[block + hi, other + lo] += w * d.HiLo;
            _raw[block + lo, other + hi] += w * d.HiLo;
        }
    }

    private void AddCross(int row, int index, double eta, double kappa)
    {
        if (index < 0)
        {
            return;
        }

        for (int k = 0; k < _system.Location.Length; k++)
        {
            _raw[index, _location + k] += eta * _system.Location[k][row];
        }

        for (int k = 0; k < _system.Scale.Length; k++)
        {
            _raw[index, _scale + k] += kappa * _system.Scale[k][row];
        }
    }
}
