namespace TastingKit.Statistics;

/// <summary>Draws fixed coefficients and random effects given variance parameters. A workspace for one thread.</summary>
internal sealed class EffectSampler
{
    private readonly LinearMixedModelFit _fit;
    private readonly MixedModelGeometry _geometry;
    private readonly ProfiledDeviance _deviance;
    private readonly double[] _centre;
    private readonly double[] _draw;
    private readonly double[] _raw;
    private readonly double[][][,] _roots;
    private readonly FunctionTranslator _translator;
    private readonly int[] _filled;
    private double[][] _weights = [];
    private double[] _means = [];
    private double _residual;

    public EffectSampler(LinearMixedModelFit fit)
    {
        _fit = fit;
        _geometry = fit.Geometry;
        _deviance = new ProfiledDeviance(_geometry, EstimationCriterion.Restricted, 1);
        _centre = new double[_geometry.EffectCount + _geometry.Rank];
        _draw = new double[_centre.Length];
        _raw = new double[_geometry.FixedDesign.Width + _geometry.EffectCount];
        _roots = Array.ConvertAll(_geometry.Groups, group => new double[group.Terms.Length][,]);
        _translator = new FunctionTranslator(_geometry);
        // Nothing depends on a place that no nested level fills, so that no number need be drawn for it.
        _filled = [.. Enumerable.Range(0, _draw.Length).Where(i => i >= _geometry.LeadEffects || _geometry.IsFilled(i))];
    }

    /// <summary>Factors the system at a draw of the variance parameters.</summary>
    public void Condition(VarianceDraw draw)
    {
        _deviance.Evaluate(draw.Entries, _fit.Products);
        _deviance.Solve(_centre);
        _residual = draw.Residual;
        for (int g = 0; g < _roots.Length; g++)
            for (int t = 0; t < _roots[g].Length; t++) _roots[g][t] = _geometry.Groups[g].Terms[t].RawFactor(_deviance.Factors[g]);
    }

    /// <summary>
    /// Solves for the functions' own weights on the independent normals, after which <see cref="DrawSolved"/> gives the same values as
    /// <see cref="Draw"/> by one product each: the better way for few functions and many draws.
    /// </summary>
    public void Solve(IReadOnlyList<LinearFunction> functions)
    {
        double scale = _fit.Products.Scale;
        _weights = new double[functions.Count][];
        _means = new double[functions.Count];
        for (int f = 0; f < functions.Count; f++)
        {
            double[] weights = _translator.Translate(functions[f], _deviance.Factors);
            double mean = OrthonormalBasis.Dot(weights, _centre);
            _means[f] = scale * mean;
            for (int j = 0; j < _geometry.Rank; j++) _means[f] += weights[_geometry.EffectCount + j] * _fit.Products.LeastSquares[j];
            _deviance.SolveForward(weights, _geometry.RestOrder);
            for (int i = 0; i < weights.Length; i++) weights[i] *= scale * _residual;
            _weights[f] = weights;
        }
    }

    /// <summary>Draws the functions' values by the weights that were solved for, and writes them into a row.</summary>
    public void DrawSolved(RandomStream random, double[,] values, int row)
    {
        DrawNormals(random);
        for (int f = 0; f < _weights.Length; f++) values[row, f] = _means[f] + OrthonormalBasis.Dot(_weights[f], _draw);
    }

    /// <summary>Draws coefficients and effects and writes the functions' values into a row.</summary>
    public void Draw(RandomStream random, IReadOnlyList<LinearFunction> functions, double[,] values, int row)
    {
        DrawNormals(random);
        _deviance.SolveTransposed(_draw, _geometry.RestOrder);
        double scale = _fit.Products.Scale;
        for (int i = 0; i < _draw.Length; i++) _draw[i] = scale * (_centre[i] + _residual * _draw[i]);
        ToRaw();
        for (int f = 0; f < functions.Count; f++)
        {
            ReadOnlySpan<int> indices = functions[f].Indices;
            ReadOnlySpan<double> weights = functions[f].Weights;
            double sum = 0;
            for (int i = 0; i < indices.Length; i++) sum += weights[i] * _raw[indices[i]];
            values[row, f] = sum;
        }
    }

    private void DrawNormals(RandomStream random)
    {
        Array.Clear(_draw);
        foreach (int i in _filled) _draw[i] = random.NextNormal();
    }

    // Coefficients of the design's columns, those dropped being zero, then raw effects.
    private void ToRaw()
    {
        Span<double> coefficients = _draw.AsSpan(_geometry.EffectCount);
        for (int j = 0; j < coefficients.Length; j++) coefficients[j] += _fit.Products.LeastSquares[j];
        _geometry.Fixed.SolveTriangle(coefficients);
        for (int j = 0; j < coefficients.Length; j++) _raw[_geometry.Fixed.Kept[j]] = coefficients[j];
        Span<double> effects = _raw.AsSpan(_geometry.FixedDesign.Width);
        for (int g = 0; g < _roots.Length; g++)
        {
            GroupLayout group = _geometry.Groups[g];
            for (int t = 0; t < _roots[g].Length; t++)
            {
                double[,] root = _roots[g][t];
                int width = group.Terms[t].Width;
                for (int level = 0; level < group.LevelCount; level++)
                {
                    int first = group.EffectOffset + level * group.Width + group.Terms[t].Offset;
                    for (int i = 0; i < width; i++)
                    {
                        double sum = 0;
                        for (int k = 0; k < width; k++) sum += root[i, k] * _draw[first + k];
                        effects[first + i] = sum;
                    }
                }
            }
        }
    }
}
