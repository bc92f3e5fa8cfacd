namespace TastingKit.Statistics;

/// <summary>A model's equations factored at variance parameters that are held: values of functions and the covariance of their prediction errors.</summary>
internal sealed class HeldSystem
{
    // A thousand residual standard deviations hold nothing back, and leave ten digits.
    private const double Free = 1000;

    private readonly MixedModelGeometry _geometry;
    private readonly ResponseProducts _response;
    private readonly ProfiledDeviance _deviance;

    /// <param name="response">The response.</param>
    /// <param name="deviance">Factored at the variance parameters, and not changed any more.</param>
    /// <param name="residual">Residual standard deviation in units of the scaled response; nothing for the one that the likelihood has there.</param>
    public HeldSystem(ResponseProducts response, ProfiledDeviance deviance, double? residual = null)
    {
        (_geometry, _response, _deviance) = (deviance.Geometry, response, deviance);
        Translator = new FunctionTranslator(_geometry);
        Solution = new double[_geometry.EffectCount + _geometry.Rank];
        deviance.Solve(Solution);
        ResidualStandardDeviation = response.Scale * (residual ?? Math.Sqrt(deviance.ResidualSum / deviance.DegreesOfFreedom));
    }

    public double ResidualStandardDeviation { get; }

    public FunctionTranslator Translator { get; }

    /// <summary>Standard effects in the groups' order and coefficients of the orthonormal fixed columns, in units of the scaled response.</summary>
    public double[] Solution { get; }

    /// <summary>The equations at the middle of a fit's draws of its variances.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="draws">The draws.</param>
    /// <param name="freeGroup">A group whose intercepts are left free; nothing for none.</param>
    public static HeldSystem At(LinearMixedModelFit fit, JointDraws draws, string? freeGroup = null)
    {
        var (entries, residual) = draws.Middle();
        if (freeGroup is not null)
        {
            if (fit.TermsOf(freeGroup) is not [{ EffectNames.Length: 1 } intercept]) throw new ArgumentException($"Group '{freeGroup}' has more than an intercept to leave free.", nameof(freeGroup));
            entries[intercept.ParameterOffset] = Free;
        }

        var deviance = new ProfiledDeviance(fit.Geometry, fit.Criterion, fit.Options.Threads);
        deviance.Evaluate(entries, fit.Products);
        return new HeldSystem(fit.Products, deviance, residual);
    }

    public double Value(LinearFunction function)
    {
        double[] weights = Translator.Translate(function, _deviance.Factors);
        double value = _response.Scale * OrthonormalBasis.Dot(weights, Solution);
        for (int j = 0; j < _geometry.Rank; j++) value += weights[_geometry.EffectCount + j] * _response.LeastSquares[j];
        return value;
    }

    public double[,] Covariances(IReadOnlyList<LinearFunction> functions)
    {
        var roots = new Root[functions.Count];
        for (int i = 0; i < roots.Length; i++) roots[i] = RootOf(functions[i]);
        var covariances = new double[roots.Length, roots.Length];
        double variance = ResidualStandardDeviation * ResidualStandardDeviation;
        for (int i = 0; i < roots.Length; i++)
            for (int j = 0; j <= i; j++) covariances[i, j] = covariances[j, i] = variance * roots[i].Times(roots[j]);
        return covariances;
    }

    // A cup touches one level of the leading group of perhaps thousands, and the rest of that part stays nought.
    private Root RootOf(LinearFunction function)
    {
        double[] root = Translator.Translate(function, _deviance.Factors);
        _deviance.SolveForward(root, _geometry.RestOrder);
        int width = _geometry.Lead?.Width ?? 0;
        var touched = new List<(int, double[])>();
        for (int level = 0; level < (_geometry.Lead?.LevelCount ?? 0); level++)
        {
            Span<double> own = root.AsSpan(level * width, width);
            if (own.IndexOfAnyExcept(0.0) >= 0) touched.Add((level, own.ToArray()));
        }

        return new Root([.. touched], root[_geometry.LeadEffects..]);
    }

    /// <summary>The variance of the intercept of a level that no row has.</summary>
    /// <param name="terms">The random terms of its group.</param>
    /// <param name="level">The level.</param>
    /// <exception cref="ArgumentException">The group has more than an intercept, or has the level.</exception>
    public double VarianceOfNew(RandomTermLayout[] terms, string level)
    {
        CategoricalColumn group = terms[0].Term.Group;
        if (terms is not [{ EffectNames.Length: 1 } intercept]) throw new ArgumentException($"Group '{group.Name}' has more than an intercept, so that a new level of it is more than one effect.", nameof(terms));
        if (group.Levels.Contains(level)) throw new ArgumentException($"Group '{group.Name}' has the level '{level}' already.", nameof(level));
        double[,] factor = _deviance.Factors[Array.IndexOf(_geometry.Groups, intercept.Owner)];
        return ResidualStandardDeviation * ResidualStandardDeviation * intercept.RelativeCovariance(factor)[0, 0];
    }

    /// <summary>A function after half of the solving: the levels of the leading group that it touches, rising, and all else.</summary>
    private sealed record Root((int Level, double[] Values)[] Lead, double[] Rest)
    {
        public double Times(Root other)
        {
            double sum = OrthonormalBasis.Dot(Rest, other.Rest);
            for (int i = 0, j = 0; i < Lead.Length && j < other.Lead.Length;)
            {
                if (Lead[i].Level == other.Lead[j].Level) sum += OrthonormalBasis.Dot(Lead[i++].Values, other.Lead[j++].Values);
                else if (Lead[i].Level < other.Lead[j].Level) i++;
                else j++;
            }

            return sum;
        }
    }
}
