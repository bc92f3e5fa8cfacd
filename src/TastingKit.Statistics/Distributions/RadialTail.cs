namespace TastingKit.Statistics;

/// <summary>
/// The distribution of the largest of several t-statistics by integrating the radius out: with rank r, the vector of
/// statistics is a radius, √(r·F) with F from the F distribution with (r, ν) degrees of freedom, times the values that a
/// uniformly distributed direction gives each statistic (Deák 1980; Somerville 1998).
/// </summary>
/// <remarks>
/// One set of directions serves every bound: what is kept of each direction is the largest value over the statistics, a
/// number m up to 1, laid on a grid with the weights of cubic interpolation. The tail at a bound c is then a weighted
/// sum of P(r·F &gt; c²/m²) over the grid, smooth in c, and its relative accuracy does not fade in the tail.
/// </remarks>
internal sealed class RadialTail
{
    private const int Shifts = 8;
    private const int Cells = 400;
    private const int AnglesPerShift = 2000;
    private static readonly double[] ProbedBounds = [1.5, 2.5];

    private readonly int _rank;
    private readonly double _degreesOfFreedom;
    private readonly List<GridWeights[]> _levels = [];
    private readonly List<int> _sizes = [];

    private RadialTail(int rank, double degreesOfFreedom)
    {
        _rank = rank;
        _degreesOfFreedom = degreesOfFreedom;
    }

    public static RadialTail Create(IDirectionalMaximum maximum, double degreesOfFreedom, MultivariateTOptions options)
    {
        var tail = new RadialTail(maximum.Rank, degreesOfFreedom);
        if (maximum.Rank == 2)
        {
            tail.AddCircle(maximum);
            return tail;
        }

        int points = 0;
        for (int level = 0; level < LatticeRule.LevelCount; level++)
        {
            int next = LatticeRule.Size(level) * Shifts;
            if (level > 0 && points + next > options.MaximumPoints)
            {
                break;
            }

            tail.Add(level, maximum, new RandomStream(options.Seed).Split((ulong)level));
            points += next;
            if (ProbedBounds.All(c => tail.Absolute(c).Error < options.Tolerance))
            {
                break;
            }
        }

        return tail;
    }

    /// <summary>P(max |T| &gt; c) for c &gt; 0.</summary>
    public IntegratedProbability Absolute(double bound) => Combine(RadiusTails(bound), (w, f) => SmallMatrix.Dot(w.Absolute, f));

    /// <summary>P(max T &gt; c) for c &gt; 0.</summary>
    public IntegratedProbability Signed(double bound) => Combine(RadiusTails(bound), (w, f) => SmallMatrix.Dot(w.Positive, f));

    private void Add(int level, IDirectionalMaximum maximum, RandomStream stream)
    {
        var shifts = new GridWeights[Shifts];
        var direction = new double[_rank];
        for (int s = 0; s < Shifts; s++)
        {
            var weights = new GridWeights();
            double share = 1.0 / LatticeRule.Size(level);
            LatticeRule.Mean(level, _rank, stream, point =>
            {
                double squares = 0.0;
                for (int i = 0; i < point.Length; i++)
                {
                    double z = StandardNormal.Quantile(Math.Clamp(point[i], 1e-16, 1.0 - 1.2e-16));
                    direction[i] = z;
                    squares += z * z;
                }

                double scale = 1.0 / Math.Sqrt(squares);
                var (largest, smallest) = maximum.Extremes(direction);
                weights.Add(largest * scale, smallest * scale, share);
                return 0.0;
            });
            shifts[s] = weights;
        }

        _levels.Add(shifts);
        _sizes.Add(LatticeRule.Size(level) * Shifts);
    }

    // In two dimensions a direction is an angle, and even angles integrate far better than a lattice.
    private void AddCircle(IDirectionalMaximum maximum)
    {
        var shifts = new GridWeights[Shifts];
        double step = 2.0 * Math.PI / (Shifts * AnglesPerShift);
        double share = 1.0 / AnglesPerShift;
        for (int s = 0; s < Shifts; s++)
        {
            shifts[s] = new GridWeights();
            for (int i = 0; i < AnglesPerShift; i++)
            {
                var (largest, smallest) = maximum.Extremes(PortableMath.PointOnCircle((i * Shifts + s) * step));
                shifts[s].Add(largest, smallest, share);
            }
        }

        _levels.Add(shifts);
        _sizes.Add(Shifts * AnglesPerShift);
    }

    private double[] RadiusTails(double bound)
    {
        var tails = new double[GridWeights.Length];
        for (int i = 0; i < tails.Length; i++)
        {
            double m = GridWeights.Node(i);
            tails[i] = m > 0.0 ? RadiusTail(bound / m) : 0.0;
        }

        return tails;
    }

    /// <summary>P(√(r·F) &gt; x).</summary>
    private double RadiusTail(double x)
    {
        double square = x * x;
        if (square > 1e300)
        {
            return 0.0;
        }

        return double.IsPositiveInfinity(_degreesOfFreedom)
            ? MathNet.Numerics.SpecialFunctions.GammaUpperRegularized(0.5 * _rank, 0.5 * square)
            : MathNet.Numerics.SpecialFunctions.BetaRegularized(0.5 * _degreesOfFreedom, 0.5 * _rank, _degreesOfFreedom / (_degreesOfFreedom + square));
    }

    private IntegratedProbability Combine(double[] tails, Func<GridWeights, double[], double> value)
    {
        double weightedSum = 0.0;
        double weight = 0.0;
        for (int level = 0; level < _levels.Count; level++)
        {
            double mean = 0.0;
            double squares = 0.0;
            for (int s = 0; s < Shifts; s++)
            {
                double v = value(_levels[level][s], tails);
                double difference = v - mean;
                mean += difference / (s + 1);
                squares += difference * (v - mean);
            }

            // Levels combine by a variance falling with the square of their size: estimated variances from eight
            // shifts are too noisy to weigh by, and would make the tail a rough function of the bound.
            double variance = squares / (Shifts * (Shifts - 1.0));
            double precision = (double)_sizes[level] * _sizes[level];
            weightedSum += mean * precision;
            weight += precision;
            if (level == _levels.Count - 1)
            {
                return new IntegratedProbability(Math.Clamp(weightedSum / weight, 0.0, 1.0), 3.0 * Math.Sqrt(variance), _sizes.Sum());
            }
        }

        throw new InvalidOperationException("No lattice was evaluated.");
    }

    /// <summary>Weights on an even grid over [0, 1] that integrate cubic polynomials as the directions do.</summary>
    private sealed class GridWeights
    {
        // Two nodes past each end, so that every value has four neighbours.
        public const int Length = Cells + 5;

        public double[] Absolute { get; } = new double[Length];

        public double[] Positive { get; } = new double[Length];

        public static double Node(int index) => (index - 2) / (double)Cells;

        public void Add(double largest, double smallest, double share)
        {
            Lay(Absolute, Math.Max(largest, -smallest), share);
            if (largest > 0.0)
            {
                Lay(Positive, largest, share);
            }
        }

        private static void Lay(double[] weights, double value, double share)
        {
            double position = Math.Min(value, 1.0) * Cells + 2.0;
            int i = (int)position;
            double t = position - i;
            weights[i - 1] -= share * t * (t - 1.0) * (t - 2.0) / 6.0;
            weights[i] += share * (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0;
            weights[i + 1] -= share * (t + 1.0) * t * (t - 2.0) / 2.0;
            weights[i + 2] += share * (t + 1.0) * t * (t - 1.0) / 6.0;
        }
    }
}
