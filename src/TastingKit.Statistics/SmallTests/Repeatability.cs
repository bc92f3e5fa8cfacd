namespace TastingKit.Statistics;

/// <summary>How well repeats of the same item agree, by a one-way analysis of variance.</summary>
/// <remarks>ISO 5725-2; the interval of the standard deviation is from the chi-square distribution.</remarks>
/// <param name="Items">Number of items.</param>
/// <param name="Observations">Number of observations over all items.</param>
/// <param name="DegreesOfFreedom">Observations less items: what the standard deviation rests on.</param>
/// <param name="StandardDeviation">Repeatability standard deviation: of one observation about its item's mean.</param>
/// <param name="Low">Lower end of its interval.</param>
/// <param name="High">Upper end of its interval.</param>
/// <param name="Level">Coverage of the interval, and the probability behind the limits.</param>
/// <param name="Limit">Repeatability limit: two repeats differ by less than this with that probability.</param>
/// <param name="HalfWidth">Half-width about the item's mean that holds one observation with that probability.</param>
/// <param name="MeanSquareBetween">Mean square between items.</param>
/// <param name="MeanSquareWithin">Mean square within items.</param>
/// <param name="F">Their ratio.</param>
/// <param name="P">The p-value of no difference between items.</param>
/// <param name="VarianceBetween">Variance between items by the analysis of variance; negative where items differ less than repeats would make them.</param>
/// <param name="IntraclassCorrelation">Between-item share of the variance, not below zero.</param>
public sealed record Repeatability(int Items, int Observations, int DegreesOfFreedom, double StandardDeviation, double Low, double High, double Level,
    double Limit, double HalfWidth, double MeanSquareBetween, double MeanSquareWithin, double F, double P, double VarianceBetween, double IntraclassCorrelation)
{
    /// <summary>Computes repeatability; items with a single observation add nothing within and still count between.</summary>
    /// <param name="item">The item of each observation.</param>
    /// <param name="values">The observations, one a row of <paramref name="item"/>.</param>
    /// <param name="level">Coverage, between 0 and 1.</param>
    /// <exception cref="ArgumentException">The lengths differ, there is one item only, no item is repeated, or a value is not finite.</exception>
    public static Repeatability Of(CategoricalColumn item, ReadOnlySpan<double> values, double level = 0.95)
    {
        ArgumentNullException.ThrowIfNull(item);
        Proportion.CheckLevel(level);
        int n = values.Length;
        int items = item.Levels.Count;
        if (n != item.Count)
        {
            throw new ArgumentException($"There are {n} values for {item.Count} rows of '{item.Name}'.", nameof(values));
        }

        if (items < 2 || n <= items)
        {
            throw new ArgumentException($"Repeatability needs two or more items and a repeat of at least one; there are {items} items and {n} observations.", nameof(item));
        }

        var counts = new int[items];
        var means = new double[items];
        double grand = 0.0;
        for (int i = 0; i < n; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                throw new ArgumentException(FormattableString.Invariant($"Value {i} (counted from 0) is {values[i]}; every value must be a finite number."), nameof(values));
            }

            counts[item.Codes[i]]++;
            means[item.Codes[i]] += values[i];
            grand += values[i] / n;
        }

        for (int g = 0; g < items; g++)
        {
            means[g] /= counts[g];
        }

        double within = 0.0;
        double between = 0.0;
        for (int i = 0; i < n; i++)
        {
            within += (values[i] - means[item.Codes[i]]) * (values[i] - means[item.Codes[i]]);
        }

        for (int g = 0; g < items; g++)
        {
            between += counts[g] * (means[g] - grand) * (means[g] - grand);
        }

        int freedom = n - items;
        double meanWithin = within / freedom;
        double meanBetween = between / (items - 1);
        double perItem = (n - counts.Sum(c => (double)c * c) / n) / (items - 1);
        double variance = (meanBetween - meanWithin) / perItem;
        double deviation = Math.Sqrt(meanWithin);
        double tail = 0.5 * (1.0 - level);
        double z = StandardNormal.Quantile(1.0 - tail);
        double total = variance + meanWithin;
        double ratio = meanWithin > 0.0 ? meanBetween / meanWithin : double.PositiveInfinity;
        return new Repeatability(
            items,
            n,
            freedom,
            deviation,
            Math.Sqrt(within / SamplingDistributions.ChiSquareQuantile(1.0 - tail, freedom)),
            Math.Sqrt(within / SamplingDistributions.ChiSquareQuantile(tail, freedom)),
            level,
            z * Math.Sqrt(2.0) * deviation,
            z * deviation,
            meanBetween,
            meanWithin,
            ratio,
            double.IsInfinity(ratio) ? 0.0 : SamplingDistributions.FUpperTail(ratio, items - 1, freedom),
            variance,
            total > 0.0 ? Math.Max(0.0, variance / total) : 0.0);
    }
}
