namespace TastingKit.Statistics;

/// <summary>
/// A multivariate t distribution of the relative covariance factors' entries, folded to factors with a diagonal that is not negative: a mode at
/// zero is no edge, since the criterion is even in every column.
/// </summary>
internal sealed class VarianceProposal
{
    private const double DegreesOfFreedom = 5;

    private readonly double[] _centre;
    private readonly double[,] _root;
    private readonly double _logDeterminant;
    private readonly int[][] _columns;

    public VarianceProposal(MixedModelGeometry geometry, double[] centre, double[,] covariance)
    {
        _centre = centre;
        _root = (double[,])covariance.Clone();
        if (!SmallMatrix.TryFactor(_root)) throw new ArgumentException("A proposal needs a positive definite covariance.", nameof(covariance));
        for (int i = 0; i < centre.Length; i++) _logDeterminant += PortableMath.Log(_root[i, i]);
        _columns = [.. geometry.Groups.SelectMany(group => group.Terms).OrderBy(term => term.ParameterOffset).SelectMany(ColumnsOf)];
    }

    /// <summary>Draws entries, folded.</summary>
    public double[] Draw(RandomStream random)
    {
        var direction = new double[_centre.Length];
        for (int i = 0; i < direction.Length; i++) direction[i] = random.NextNormal();
        double stretch = Math.Sqrt(DegreesOfFreedom / (2 * random.NextGamma(DegreesOfFreedom / 2)));
        var draw = (double[])_centre.Clone();
        for (int i = 0; i < draw.Length; i++)
            for (int j = 0; j <= i; j++) draw[i] += stretch * _root[i, j] * direction[j];
        foreach (int[] column in _columns)
        {
            if (draw[column[0]] >= 0) continue;
            foreach (int entry in column) draw[entry] = -draw[entry];
        }

        return draw;
    }

    /// <summary>Logarithm of the folded density, up to a constant that is the same for all proposals of this dimension.</summary>
    public double LogDensity(double[] entries)
    {
        int n = entries.Length;
        var reflected = new double[n];
        var scaled = new double[n];
        double density = 0;
        for (int pattern = 0; pattern < 1 << _columns.Length; pattern++)
        {
            entries.CopyTo(reflected, 0);
            for (int c = 0; c < _columns.Length; c++)
            {
                if ((pattern >> c & 1) == 0) continue;
                foreach (int entry in _columns[c]) reflected[entry] = -reflected[entry];
            }

            for (int i = 0; i < n; i++) scaled[i] = reflected[i] - _centre[i];
            SmallMatrix.SolveLower(_root, scaled);
            double distance = 0;
            for (int i = 0; i < n; i++) distance += scaled[i] * scaled[i];
            density += PortableMath.Exp(-0.5 * (DegreesOfFreedom + n) * PortableMath.Log(1 + distance / DegreesOfFreedom));
        }

        return PortableMath.Log(density) - _logDeterminant;
    }

    private static IEnumerable<int[]> ColumnsOf(RandomTermLayout term)
    {
        if (term.HasCommonVariance) return [[term.ParameterOffset]];
        var columns = new List<int[]>();
        int next = term.ParameterOffset;
        for (int column = 0; column < term.Width; column++)
        {
            columns.Add([.. Enumerable.Range(next, term.Width - column)]);
            next += term.Width - column;
        }

        return columns;
    }
}
