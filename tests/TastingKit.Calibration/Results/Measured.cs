namespace TastingKit.Calibration;

/// <summary>A share measured over simulated years, with its simulation error.</summary>
/// <param name="Value">The share.</param>
/// <param name="StandardError">Its standard error, years being the independent units.</param>
/// <param name="Total">Intervals or chances it rests on.</param>
/// <param name="Years">Years it rests on.</param>
public sealed record MeasuredShare(double Value, double StandardError, int Total, int Years)
{
    /// <summary>A share of pooled counts; its error is that of a ratio of sums over years.</summary>
    /// <param name="counts">Each year's hits and chances.</param>
    public static MeasuredShare Of(IReadOnlyList<(int Hits, int Total)> counts)
    {
        var hits = counts.Sum(count => (long)count.Hits);
        var total = counts.Sum(count => (long)count.Total);
        if (total == 0)
            throw new ArgumentException("A share needs at least one chance; the counts hold none.", nameof(counts));
        var share = hits / (double)total;
        var squares = counts.Sum(count => Square(count.Hits - share * count.Total));
        var years = counts.Count;
        return new MeasuredShare(share, years < 2 ? 1 : Math.Sqrt(squares * years / (years - 1.0)) / total, (int)total, years);
    }

    private static double Square(double value) => value * value;
}

/// <summary>Stated probabilities of one range against how often they came true.</summary>
/// <param name="Low">Lower end of the range.</param>
/// <param name="High">Upper end of the range.</param>
/// <param name="Count">Predictions.</param>
/// <param name="Stated">Mean stated probability.</param>
/// <param name="True">Share that came true.</param>
/// <param name="StandardError">Standard error of the difference of the two, years being the independent units.</param>
public sealed record ProbabilityBin(double Low, double High, int Count, double Stated, double True, double StandardError);

/// <summary>Stated probabilities against how often they came true: the least-squares line of outcomes on statements, and the bins.</summary>
/// <param name="Slope">Slope of the line; 1 where statements are calibrated, below 1 where they are too bold.</param>
/// <param name="SlopeStandardError">Standard error of the slope, years being the independent units.</param>
/// <param name="Bins">Ranges of at least 1,000 predictions each, as far as there are so many.</param>
/// <param name="Years">Years they rest on.</param>
public sealed record MeasuredProbability(double Slope, double SlopeStandardError, IReadOnlyList<ProbabilityBin> Bins, int Years)
{
    private const int LeastInABin = 1000;

    /// <summary>Measures a set of years.</summary>
    public static MeasuredProbability Of(IReadOnlyList<ProbabilityCount> years)
    {
        double n = years.Sum(year => year.Count.Sum()), p = years.Sum(year => year.Stated.Sum()), y = years.Sum(year => year.True.Sum());
        double pp = years.Sum(year => year.StatedSquared), py = years.Sum(year => year.StatedAndTrue);
        if (n == 0)
            throw new ArgumentException("A line of outcomes on probabilities needs predictions; the years hold none.", nameof(years));
        var (meanP, meanY) = (p / n, y / n);
        var spread = pp - n * meanP * meanP;
        var slope = spread > 0 ? (py - n * meanP * meanY) / spread : 0;

        // Cluster-robust: each year's contribution to the score of the slope, from its sums alone.
        var scores = 0.0;
        foreach (var year in years)
        {
            double ng = year.Count.Sum(), pg = year.Stated.Sum(), yg = year.True.Sum();
            var cross = year.StatedAndTrue - meanP * yg - meanY * (pg - meanP * ng);
            var square = year.StatedSquared - meanP * pg - meanP * (pg - meanP * ng);
            scores += (cross - slope * square) * (cross - slope * square);
        }

        var error = spread > 0 && years.Count > 1 ? Math.Sqrt(scores * years.Count / (years.Count - 1.0)) / spread : double.PositiveInfinity;
        return new MeasuredProbability(slope, error, BinsOf(years), years.Count);
    }

    private static List<ProbabilityBin> BinsOf(IReadOnlyList<ProbabilityCount> years)
    {
        var bins = new List<ProbabilityBin>();
        var from = 0;
        for (var bin = 0; bin < YearRecord.Bins; bin++)
        {
            var rest = years.Sum(year => year.Count[(bin + 1)..].Sum());
            var count = years.Sum(year => year.Count[from..(bin + 1)].Sum());
            // A range takes its neighbours in until it has enough, and never leaves too few behind.
            if (bin < YearRecord.Bins - 1 && (count < LeastInABin || rest < LeastInABin))
                continue;
            if (count > 0)
                bins.Add(Bin(years, from, bin + 1, count));
            from = bin + 1;
        }

        return bins;
    }

    private static ProbabilityBin Bin(IReadOnlyList<ProbabilityCount> years, int from, int to, int count)
    {
        var stated = years.Sum(year => year.Stated[from..to].Sum()) / count;
        var cameTrue = years.Sum(year => year.True[from..to].Sum()) / (double)count;
        var squares = 0.0;
        foreach (var year in years)
        {
            var difference = year.True[from..to].Sum() - year.Stated[from..to].Sum() - year.Count[from..to].Sum() * (cameTrue - stated);
            squares += difference * difference;
        }

        return new ProbabilityBin(from / (double)YearRecord.Bins, to / (double)YearRecord.Bins, count, stated, cameTrue, Math.Sqrt(squares) / count);
    }
}
