namespace TastingKit.Statistics;

/// <summary>
/// The integrand left after sequential conditioning: at a point of the unit cube, the product of the conditional
/// probabilities that each independent variable keeps all bounds that depend on it.
/// </summary>
internal sealed class OrthantIntegrand
{
    private readonly OrthantFactor _factor;
    private readonly double[] _lower;
    private readonly double[] _upper;
    private readonly RootMeanSquareQuantile? _scale;
    private readonly double[] _independent;

    public OrthantIntegrand(OrthantFactor factor, double[] lower, double[] upper, RootMeanSquareQuantile? scale)
    {
        _factor = factor;
        _lower = Array.ConvertAll(factor.Rows, r => lower[r]);
        _upper = Array.ConvertAll(factor.Rows, r => upper[r]);
        _scale = scale;
        _independent = new double[factor.Rank];
    }

    /// <summary>The integrand at <paramref name="point"/>: the scale's coordinate first, if there is one, then those of the variables but the last.</summary>
    public double Value(ReadOnlySpan<double> point)
    {
        int offset = 0;
        double scale = 1.0;
        if (_scale is not null)
        {
            scale = _scale.At(point[0]);
            offset = 1;
        }

        double product = 1.0;
        int rank = _factor.Rank;
        for (int i = 0; i < rank; i++)
        {
            double low = double.NegativeInfinity;
            double high = double.PositiveInfinity;
            for (int r = _factor.GroupStarts[i]; r < _factor.GroupStarts[i + 1]; r++)
            {
                double[] coefficients = _factor.Coefficients[r];
                double center = 0.0;
                for (int l = 0; l < i; l++)
                {
                    center += coefficients[l] * _independent[l];
                }

                double coefficient = coefficients[i];
                double a = (scale * _lower[r] - center) / coefficient;
                double b = (scale * _upper[r] - center) / coefficient;
                low = Math.Max(low, coefficient > 0.0 ? a : b);
                high = Math.Min(high, coefficient > 0.0 ? b : a);
            }

            if (!(low < high))
            {
                return 0.0;
            }

            double below = StandardNormal.CumulativeProbability(low);
            double mass = StandardNormal.CumulativeProbability(high) - below;
            product *= mass;
            if (product <= 0.0)
            {
                return 0.0;
            }

            if (i + 1 < rank)
            {
                _independent[i] = StandardNormal.Quantile(Math.Clamp(below + point[offset + i] * mass, 1e-300, 1.0 - 1.2e-16));
            }
        }

        return product;
    }
}
