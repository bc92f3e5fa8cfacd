namespace TastingKit;

/// <summary>How many standard deviations of each quantity's draws an interval must reach so that all hold at once.</summary>
internal sealed record SimultaneousReach(double Multiplier, IReadOnlyList<double> Means, IReadOnlyList<double> StandardDeviations, IReadOnlyList<double> Largest)
{
    /// <summary>The quantile, over draws, of the largest standardised deviation among the columns.</summary>
    public static SimultaneousReach Of(PredictionDraws draws, double level)
    {
        var means = new double[draws.Width];
        var deviations = new double[draws.Width];
        var largest = new double[draws.Count];
        for (var c = 0; c < draws.Width; c++)
        {
            var column = draws.Column(c);
            var sum = 0.0;
            foreach (var value in column)
                sum += value;
            means[c] = sum / column.Length;
            var squares = 0.0;
            foreach (var value in column)
                squares += (value - means[c]) * (value - means[c]);
            deviations[c] = Math.Sqrt(squares / (column.Length - 1));
            for (var r = 0; r < column.Length; r++)
                largest[r] = Math.Max(largest[r], deviations[c] > 0 ? Math.Abs(column[r] - means[c]) / deviations[c] : 0);
        }

        Array.Sort(largest);
        return new SimultaneousReach(Quantiles.OfSorted(largest, level), means, deviations, largest);
    }
}
