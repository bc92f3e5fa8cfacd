namespace TastingKit;

/// <summary>Answers which way a difference goes and whether it matters, from draws of it.</summary>
internal static class MethodAnswers
{
    private const double SizeTail = 0.05;

    /// <summary>The margin asked, or half a point of a scale from 1 to 9 scaled to this one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The margin is not positive.</exception>
    public static double Margin(double? asked, Scale scale)
    {
        var margin = asked ?? ScaleText.HalfAPoint(scale);
        return margin > 0 && double.IsFinite(margin)
            ? margin
            : throw new ArgumentOutOfRangeException(nameof(asked), asked, "A margin is a positive number of points.");
    }

    /// <summary>The answers of one column of draws.</summary>
    /// <param name="draws">The draws.</param>
    /// <param name="reach">How far the family's intervals reach.</param>
    /// <param name="column">Which quantity.</param>
    /// <param name="sign">1 for the quantity as it is, −1 turned round.</param>
    /// <param name="margin">The margin, fixed beforehand.</param>
    public static MethodAnswer Of(PredictionDraws draws, SimultaneousReach reach, int column, int sign, double margin)
    {
        var mean = sign * reach.Means[column];
        var half = reach.Multiplier * reach.StandardDeviations[column];
        var (low, high) = (mean - half, mean + half);
        var sorted = draws.Column(column).ToArray();
        for (var d = 0; d < sorted.Length; d++)
            sorted[d] *= sign;
        Array.Sort(sorted);
        var (sizeLow, sizeHigh) = (Quantiles.OfSorted(sorted, SizeTail), Quantiles.OfSorted(sorted, 1 - SizeTail));
        return new MethodAnswer(
            mean, low, high, sizeLow, sizeHigh,
            low > 0 ? Direction.Higher : high < 0 ? Direction.Lower : Direction.Undecided,
            low > margin || high < -margin ? Size.Matters : sizeLow > -margin && sizeHigh < margin ? Size.TooSmallToMatter : Size.Undecided);
    }
}
