namespace TastingKit.Statistics;

/// <summary>Which ratings an intraclass correlation compares, in the notation of Shrout and Fleiss.</summary>
public enum IntraclassCorrelationForm
{
    /// <summary>ICC(1,1): each target rated by other raters, drawn at random.</summary>
    OneWay,

    /// <summary>ICC(2,1): all targets rated by the same raters, drawn at random; raters' levels count as disagreement.</summary>
    TwoWayAgreement,

    /// <summary>ICC(3,1): all targets rated by these raters; their levels don't count.</summary>
    TwoWayConsistency,
}

/// <summary>One intraclass correlation.</summary>
/// <param name="Form">Which ratings are compared.</param>
/// <param name="Value">The correlation of single ratings.</param>
/// <param name="Low">Lower end of the interval, from F distributions (for agreement with Satterthwaite's degrees of freedom).</param>
/// <param name="High">Upper end of the interval.</param>
/// <param name="Level">Coverage of the interval.</param>
/// <param name="OfMean">The reliability of the mean of all raters.</param>
public sealed record IntraclassCorrelation(IntraclassCorrelationForm Form, double Value, double Low, double High, double Level, double OfMean);

/// <summary>Intraclass correlations of targets rated by the same number of raters (Shrout and Fleiss 1979).</summary>
public static class IntraclassCorrelations
{
    /// <summary>Computes the three forms.</summary>
    /// <param name="ratings">One row a target, one column a rater (or repeat), complete; at least 2 × 2.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <returns>One-way, two-way agreement, two-way consistency.</returns>
    /// <exception cref="ArgumentException">Too few targets or raters, a rating that is not finite, or no variation left within targets.</exception>
    public static IReadOnlyList<IntraclassCorrelation> Of(double[,] ratings, double level = 0.95)
    {
        ArgumentNullException.ThrowIfNull(ratings);
        Proportion.CheckLevel(level);
        int n = ratings.GetLength(0);
        int k = ratings.GetLength(1);
        if (n < 2 || k < 2)
        {
            throw new ArgumentException($"Intraclass correlations need two or more targets and raters; the table is {n} × {k}.", nameof(ratings));
        }

        var (rows, columns, error, within) = MeanSquares(ratings);
        if (!(error > 1e-24 * (rows + columns + within)))
        {
            throw new ArgumentException("The raters agree exactly up to a constant in every target: no error is left to compare with.", nameof(ratings));
        }

        double tail = 0.5 * (1.0 - level);
        double oneWay = (rows - within) / (rows + (k - 1) * within);
        double agreement = (rows - error) / (rows + (k - 1) * error + k * (columns - error) / n);
        double consistency = (rows - error) / (rows + (k - 1) * error);
        var (low1, high1) = FromRatio(rows / within, n - 1, n * (k - 1.0));
        var (low3, high3) = FromRatio(rows / error, n - 1, (n - 1.0) * (k - 1.0));

        double ratio = columns / error;
        double spread = n * (1.0 + (k - 1) * agreement) - k * agreement;
        double numerator = (k - 1.0) * (n - 1.0) * Square(k * agreement * ratio + spread);
        double denominator = (n - 1.0) * Square(k * agreement * ratio) + Square(spread);
        double freedom = numerator / denominator;
        double upper = SamplingDistributions.FQuantile(1.0 - tail, n - 1, freedom);
        double lower = SamplingDistributions.FQuantile(1.0 - tail, freedom, n - 1);
        double rest = k * columns + (k * (double)n - k - n) * error;
        return
        [
            new(IntraclassCorrelationForm.OneWay, oneWay, low1, high1, level, (rows - within) / rows),
            new(IntraclassCorrelationForm.TwoWayAgreement, agreement, n * (rows - upper * error) / (upper * rest + n * rows),
                n * (lower * rows - error) / (rest + n * lower * rows), level, (rows - error) / (rows + (columns - error) / n)),
            new(IntraclassCorrelationForm.TwoWayConsistency, consistency, low3, high3, level, (rows - error) / rows),
        ];

        (double Low, double High) FromRatio(double f, double first, double second)
        {
            double low = f / SamplingDistributions.FQuantile(1.0 - tail, first, second);
            double high = f * SamplingDistributions.FQuantile(1.0 - tail, second, first);
            return ((low - 1.0) / (low + k - 1.0), (high - 1.0) / (high + k - 1.0));
        }
    }

    private static (double Rows, double Columns, double Error, double Within) MeanSquares(double[,] ratings)
    {
        int n = ratings.GetLength(0);
        int k = ratings.GetLength(1);
        var rowMeans = new double[n];
        var columnMeans = new double[k];
        double grand = 0.0;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < k; j++)
            {
                if (!double.IsFinite(ratings[i, j]))
                {
                    throw new ArgumentException(FormattableString.Invariant($"The rating of target {i} by rater {j} (counted from 0) is {ratings[i, j]}; every rating must be a finite number."), nameof(ratings));
                }

                rowMeans[i] += ratings[i, j] / k;
                columnMeans[j] += ratings[i, j] / n;
                grand += ratings[i, j] / (n * (double)k);
            }
        }

        double error = 0.0;
        double within = 0.0;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < k; j++)
            {
                error += Square(ratings[i, j] - rowMeans[i] - columnMeans[j] + grand);
                within += Square(ratings[i, j] - rowMeans[i]);
            }
        }

        return (k * rowMeans.Sum(m => Square(m - grand)) / (n - 1), n * columnMeans.Sum(m => Square(m - grand)) / (k - 1),
            error / ((n - 1.0) * (k - 1.0)), within / (n * (k - 1.0)));
    }

    private static double Square(double x) => x * x;
}
