namespace TastingKit.Statistics;

/// <summary>
/// How probable it is that the one of several functions with the highest predicted value is truly the highest, now and after observations
/// yet to be made. Immutable.
/// </summary>
/// <remarks>
/// <para>
/// The truth is drawn from what is not known, the same draws for whatever could be observed. Before the observation the predicted values are
/// straight lines in how far it will depart from its prediction, so that each function leads over one interval (the upper envelope of Frazier, Powell
/// and Dayanik 2009, The knowledge-gradient policy for correlated normal beliefs, INFORMS Journal on Computing 21). Given a draw of the truth the
/// departure is normal, so that the probability of its falling where the true best leads is exact, and only the truth is sampled.
/// </para>
/// <para>After an observation that is only planned, what it will be is drawn as well, once for each draw of the truth.</para>
/// </remarks>
public sealed class BestNaming
{
    private readonly FurtherObservations _observations;
    private readonly int[] _rivals;
    private readonly double[][] _truths;
    private readonly double[][] _predicted;
    private readonly int[] _best;
    private readonly RandomStream _noise;
    private readonly ulong _planned;

    private BestNaming(FurtherObservations observations, int[] rivals, double[][] truths, double[][] predicted, int[] best, RandomStream noise, ulong planned)
    {
        (_observations, _rivals, _truths, _predicted, _best, _noise, _planned) = (observations, rivals, truths, predicted, best, noise, planned);
        Probability = (double)Enumerable.Range(0, truths.Length).Count(draw => Leader(predicted[draw]) == best[draw]) / truths.Length;
    }

    /// <summary>Probability that the rival with the highest predicted value is truly the highest, as the draws have it.</summary>
    public double Probability { get; }

    /// <summary>What is not known of all functions, after what was planned.</summary>
    public FurtherObservations Observations => _observations;

    /// <summary>Draws the truth.</summary>
    /// <param name="observations">The rivals and whatever could be observed.</param>
    /// <param name="rivals">Which of its functions are the rivals; at least two.</param>
    /// <param name="draws">Number of draws.</param>
    /// <param name="seed">The same seed gives the same draws.</param>
    public static BestNaming Of(FurtherObservations observations, IReadOnlyList<int> rivals, int draws, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(observations);
        ArgumentNullException.ThrowIfNull(rivals);
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 1);
        if (rivals.Count < 2) throw new ArgumentException($"The best of {rivals.Count} is no question; it takes two.", nameof(rivals));
        int[] kept = [.. rivals];
        int count = observations.Count;
        double[] start = [.. Enumerable.Range(0, count).Select(observations.Value)];
        double[,] root = SmallMatrix.SemidefiniteFactor(observations.Covariances());
        RandomStream streams = new(seed);
        var random = streams.Split(0);
        var truths = new double[draws][];
        var predicted = new double[draws][];
        var normal = new double[count];
        for (int draw = 0; draw < draws; draw++)
        {
            for (int i = 0; i < count; i++) normal[i] = random.NextNormal();
            double[] truth = (double[])start.Clone();
            for (int i = 0; i < count; i++)
                for (int j = 0; j <= i; j++) truth[i] += root[i, j] * normal[j];
            (truths[draw], predicted[draw]) = (truth, start);
        }

        int[] best = [.. truths.Select(truth => LeaderOf(truth, kept))];
        return new BestNaming(observations, kept, truths, predicted, best, streams, 1);
    }

    /// <summary>Probability of naming the best after one observation of a function.</summary>
    /// <param name="observed">The function that would be observed.</param>
    public double ProbabilityAfter(int observed)
    {
        var steps = Array.ConvertAll(_rivals, rival => _observations.Step(rival, observed));
        double predictive = _observations.PredictiveVariance(observed), deviation = Math.Sqrt(predictive);
        double spread = Math.Sqrt(_observations.NoiseVariance / predictive), sum = 0;

        // Before anything is planned all draws share what is predicted, and with it where each rival leads.
        var leads = ReferenceEquals(_predicted[0], _predicted[^1]) ? Array.ConvertAll(_rivals, rival => Leads(_predicted[0], steps, Array.IndexOf(_rivals, rival))) : null;
        for (int draw = 0; draw < _truths.Length; draw++)
        {
            double centre = (_truths[draw][observed] - _predicted[draw][observed]) / deviation;
            var (low, high) = leads?[_best[draw]] ?? Leads(_predicted[draw], steps, _best[draw]);
            if (low >= high) continue;
            sum += StandardNormal.CumulativeProbability((high - centre) / spread) - StandardNormal.CumulativeProbability((low - centre) / spread);
        }

        return sum / _truths.Length;
    }

    /// <summary>The same once a function is planned to be observed, whatever will be seen.</summary>
    /// <param name="observed">The function.</param>
    public BestNaming After(int observed)
    {
        var random = _noise.Split(_planned);
        double predictive = _observations.PredictiveVariance(observed), noise = Math.Sqrt(_observations.NoiseVariance);
        double[] gains = [.. Enumerable.Range(0, _observations.Count).Select(i => _observations.Covariance(i, observed) / predictive)];
        var predicted = new double[_truths.Length][];
        for (int draw = 0; draw < predicted.Length; draw++)
        {
            double departure = _truths[draw][observed] + noise * random.NextNormal() - _predicted[draw][observed];
            predicted[draw] = new double[gains.Length];
            for (int i = 0; i < gains.Length; i++) predicted[draw][i] = _predicted[draw][i] + gains[i] * departure;
        }

        return new BestNaming(_observations.After(observed), _rivals, _truths, predicted, _best, _noise, _planned + 1);
    }

    /// <summary>The share of draws in which each rival is the best, in the rivals' order.</summary>
    public IReadOnlyList<double> ProbabilitiesOfBeingBest()
    {
        var shares = new double[_rivals.Length];
        foreach (int best in _best) shares[best] += 1.0 / _best.Length;
        return shares;
    }

    private int Leader(double[] values) => LeaderOf(values, _rivals);

    private static int LeaderOf(double[] values, int[] rivals)
    {
        int leader = 0;
        for (int r = 1; r < rivals.Length; r++)
        {
            if (values[rivals[r]] > values[rivals[leader]]) leader = r;
        }

        return leader;
    }

    // The interval of departures over which a rival's line lies above all others.
    private (double Low, double High) Leads(double[] predicted, double[] steps, int rival)
    {
        double low = double.NegativeInfinity, high = double.PositiveInfinity, own = predicted[_rivals[rival]];
        for (int r = 0; r < steps.Length; r++)
        {
            if (r == rival) continue;
            double ahead = own - predicted[_rivals[r]], faster = steps[rival] - steps[r];
            if (faster > 0) low = Math.Max(low, -ahead / faster);
            else if (faster < 0) high = Math.Min(high, -ahead / faster);
            else if (ahead < 0 || (ahead == 0 && r < rival)) return (0, 0);
        }

        return (low, high);
    }
}
