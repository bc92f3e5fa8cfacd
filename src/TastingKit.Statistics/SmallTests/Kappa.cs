namespace TastingKit.Statistics;

/// <summary>How much a disagreement counts by how many categories it spans.</summary>
public enum KappaWeights
{
    /// <summary>Every disagreement alike, for categories without order.</summary>
    Unweighted,

    /// <summary>In proportion to the categories spanned.</summary>
    Linear,

    /// <summary>In proportion to their square.</summary>
    Quadratic,
}

/// <summary>Agreement of two classifications of the same items beyond chance.</summary>
/// <remarks>
/// Cohen (1960, 1968); standard errors of Fleiss, Cohen and Everitt (1969), for large samples. Agreement weights are 1 on
/// the diagonal and fall to 0 at the widest disagreement.
/// </remarks>
/// <param name="Value">Kappa: 1 for perfect agreement, 0 for agreement by chance alone, negative below it.</param>
/// <param name="Observed">The weighted share of agreement.</param>
/// <param name="Expected">What it would be by chance.</param>
/// <param name="StandardError">The standard error of kappa.</param>
/// <param name="Low">Lower end of the interval.</param>
/// <param name="High">Upper end of the interval.</param>
/// <param name="Level">Coverage of the interval.</param>
/// <param name="NullStandardError">The standard error if the classifications were independent.</param>
/// <param name="P">Two-sided p-value of independence, from the normal distribution.</param>
public sealed record Kappa(double Value, double Observed, double Expected, double StandardError, double Low, double High, double Level, double NullStandardError, double P)
{
    /// <summary>Computes kappa of a square table of counts.</summary>
    /// <param name="table">Counts, one row a category of the first classification, one column a category of the second, in the same order.</param>
    /// <param name="weights">How much a disagreement counts.</param>
    /// <param name="level">Coverage of the interval.</param>
    /// <exception cref="ArgumentException">The table is not square, has fewer than two categories, negative or no counts, or all of them in one category, which leaves kappa undefined.</exception>
    public static Kappa Of(double[,] table, KappaWeights weights = KappaWeights.Unweighted, double level = 0.95)
    {
        ArgumentNullException.ThrowIfNull(table);
        Proportion.CheckLevel(level);
        int size = table.GetLength(0);
        if (size < 2 || table.GetLength(1) != size)
        {
            throw new ArgumentException($"Kappa needs a square table of two or more categories; this one is {size} × {table.GetLength(1)}.", nameof(table));
        }

        double total = 0.0;
        foreach (double count in table)
        {
            if (!(count >= 0.0) || double.IsInfinity(count))
            {
                throw new ArgumentException(FormattableString.Invariant($"A count is not negative and finite; the table holds {count}."), nameof(table));
            }

            total += count;
        }

        if (total == 0.0)
        {
            throw new ArgumentException("The table holds no counts.", nameof(table));
        }

        var rows = new double[size];
        var columns = new double[size];
        for (int i = 0; i < size; i++)
        {
            for (int j = 0; j < size; j++)
            {
                rows[i] += table[i, j] / total;
                columns[j] += table[i, j] / total;
            }
        }

        double observed = 0.0;
        double expected = 0.0;
        var rowMeans = new double[size];
        var columnMeans = new double[size];
        for (int i = 0; i < size; i++)
        {
            for (int j = 0; j < size; j++)
            {
                double w = Weight(i, j, size, weights);
                observed += w * table[i, j] / total;
                expected += w * rows[i] * columns[j];
                rowMeans[i] += w * columns[j];
                columnMeans[j] += w * rows[i];
            }
        }

        if (1.0 - expected < 1e-14)
        {
            throw new ArgumentException("All counts stand in one category of both classifications: agreement by chance is then complete, and kappa is undefined.", nameof(table));
        }

        double kappa = (observed - expected) / (1.0 - expected);
        double spread = 0.0;
        double nullSpread = 0.0;
        for (int i = 0; i < size; i++)
        {
            for (int j = 0; j < size; j++)
            {
                double w = Weight(i, j, size, weights);
                double means = rowMeans[i] + columnMeans[j];
                double deviation = w - means * (1.0 - kappa);
                spread += table[i, j] / total * deviation * deviation;
                nullSpread += rows[i] * columns[j] * (w - means) * (w - means);
            }
        }

        double offset = kappa - expected * (1.0 - kappa);
        double scale = total * (1.0 - expected) * (1.0 - expected);
        double error = Math.Sqrt(Math.Max(0.0, spread - offset * offset) / scale);
        double nullError = Math.Sqrt(Math.Max(0.0, nullSpread - expected * expected) / scale);
        double half = StandardNormal.Quantile(0.5 + 0.5 * level) * error;
        double p = nullError > 0.0 ? 2.0 * StandardNormal.CumulativeProbability(-Math.Abs(kappa / nullError)) : 1.0;
        return new Kappa(kappa, observed, expected, error, kappa - half, kappa + half, level, nullError, p);
    }

    private static double Weight(int i, int j, int size, KappaWeights weights)
    {
        double share = Math.Abs(i - j) / (size - 1.0);
        return weights switch
        {
            KappaWeights.Linear => 1.0 - share,
            KappaWeights.Quadratic => 1.0 - share * share,
            _ => i == j ? 1.0 : 0.0,
        };
    }
}
