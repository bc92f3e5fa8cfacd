namespace TastingKit.Statistics;

/// <summary>
/// The covariance of the estimated variance parameters and, from it, Satterthwaite's degrees of freedom of any function's variance.
/// </summary>
/// <remarks>
/// The information is observed: central differences of the analytic gradient in the relative covariance factors, exact in the logarithm
/// of the residual variance. Entries of a factor that is zero are held there (the reading of a singular fit). A function's variance is the minimum over unbiased
/// predictors, so its derivative is that of the variance at the predictor held, which one solve gives.
/// </remarks>
internal sealed class VarianceInformation
{
    private readonly MixedModelGeometry _geometry;
    private readonly ProfiledDeviance _deviance;
    private readonly FunctionTranslator _translator;
    private readonly int[] _free;
    private readonly double[,] _covariance;

    public VarianceInformation(MixedModelGeometry geometry, ResponseProducts response, VarianceParameters point, EstimationCriterion criterion, int threads)
    {
        _geometry = geometry;
        _translator = new FunctionTranslator(geometry);
        _free = point.Free;
        _deviance = new ProfiledDeviance(geometry, criterion, threads);
        _covariance = Covariance(response, point);
        _deviance.Evaluate(point.Values, response);
    }

    /// <summary>Covariance of the free entries of the relative covariance factors and, last, of the logarithm of the residual variance.</summary>
    public double[,] ParameterCovariance => _covariance;

    /// <summary>Variance of a function relative to the residual variance, and its derivatives in the free entries.</summary>
    public (double Variance, double[] Derivatives) Variance(LinearFunction function)
    {
        double[] weights = _translator.Translate(function, _deviance.Factors);
        var solved = (double[])weights.Clone();
        _deviance.SolveSystem(solved);
        double variance = OrthonormalBasis.Dot(weights, solved);
        var all = new double[_geometry.ParameterCount];
        for (int g = 0; g < _geometry.Groups.Length; g++)
        {
            foreach (RandomTermLayout term in _geometry.Groups[g].Terms) AddDerivatives(_geometry.Groups[g], term, _deviance.Factors[g], solved, all);
        }

        return (variance, Array.ConvertAll(_free, i => all[i]));
    }

    /// <summary>Satterthwaite's degrees of freedom of a function's variance.</summary>
    public double DegreesOfFreedom(LinearFunction function)
    {
        var (variance, derivatives) = Variance(function);
        if (variance == 0) return double.PositiveInfinity;
        double spread = 0;
        for (int i = 0; i <= derivatives.Length; i++)
        {
            double first = i < derivatives.Length ? derivatives[i] / variance : 1;
            for (int j = 0; j <= derivatives.Length; j++)
            {
                double second = j < derivatives.Length ? derivatives[j] / variance : 1;
                spread += first * _covariance[i, j] * second;
            }
        }

        return 2 / spread;
    }

    // δ = Zᵀλ − m = −T⁻ᵀ x of the solved system, and the derivative of Σ δᵀ T Tᵀ δ in T is −2 Σ δ xᵀ.
    private static void AddDerivatives(GroupLayout group, RandomTermLayout term, double[,] factor, double[] solved, double[] target)
    {
        var delta = new double[term.Width];
        for (int level = 0; level < group.LevelCount; level++)
        {
            ReadOnlySpan<double> own = solved.AsSpan(group.EffectOffset + level * group.Width + term.Offset, term.Width);
            for (int row = term.Width - 1; row >= 0; row--)
            {
                double sum = -own[row];
                for (int k = row + 1; k < term.Width; k++) sum -= factor[term.Offset + k, term.Offset + row] * delta[k];
                delta[row] = sum / factor[term.Offset + row, term.Offset + row];
            }

            int next = term.ParameterOffset;
            for (int column = 0; column < term.Width; column++)
            {
                if (term.HasCommonVariance)
                {
                    target[next] -= 2 * delta[column] * own[column];
                    continue;
                }

                for (int row = column; row < term.Width; row++) target[next++] -= 2 * delta[row] * own[column];
            }
        }
    }

    private double[,] Covariance(ResponseProducts response, VarianceParameters point)
    {
        int count = _free.Length;
        var information = new double[count + 1, count + 1];
        var derivatives = new DevianceDerivatives(_deviance);
        _deviance.Evaluate(point.Values, response);
        derivatives.Update();
        double variance = _deviance.ResidualSum / _deviance.DegreesOfFreedom;
        for (int i = 0; i < count; i++) information[i, count] = information[count, i] = -derivatives.OfResidualSum[_free[i]] / variance;
        information[count, count] = _deviance.DegreesOfFreedom;
        for (int i = 0; i < count; i++)
        {
            double width = 2e-4 * Math.Max(0.05, Math.Abs(point.Values[_free[i]]));
            var moved = (double[])point.Values.Clone();
            double[] above = Gradient(moved, _free[i], width), below = Gradient(moved, _free[i], -width);
            for (int j = 0; j < count; j++) information[i, j] = (above[j] - below[j]) / (2 * width);
        }

        for (int i = 0; i < count; i++)
            for (int j = 0; j < i; j++) information[i, j] = information[j, i] = 0.5 * (information[i, j] + information[j, i]);
        return TwiceInverse(information);

        double[] Gradient(double[] values, int parameter, double by)
        {
            values[parameter] = point.Values[parameter] + by;
            _deviance.Evaluate(values, response);
            derivatives.Update();
            values[parameter] = point.Values[parameter];
            return Array.ConvertAll(_free, i => derivatives.OfDeterminant[i] + derivatives.OfResidualSum[i] / variance);
        }
    }

    // A direction in which the criterion is flat or bends down says nothing and is left out.
    private static double[,] TwiceInverse(double[,] information)
    {
        var (values, vectors) = SmallMatrix.Eigen(information);
        double largest = values.Max();
        int n = values.Length;
        var inverse = new double[n, n];
        for (int e = 0; e < n; e++)
        {
            if (!(values[e] > 1e-10 * largest)) continue;
            for (int i = 0; i < n; i++)
                for (int j = 0; j < n; j++) inverse[i, j] += 2 * vectors[i, e] * vectors[j, e] / values[e];
        }

        return inverse;
    }
}
