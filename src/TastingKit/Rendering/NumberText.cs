using System.Globalization;

namespace TastingKit;

/// <summary>The one place where numbers become text, so that a figure reads the same in a sentence, a table and a chart.</summary>
public static class NumberText
{
    private const string TrueMinus = "\u2212";

    /// <summary>A number with the decimals given; a true minus sign, and no minus before a rounded nought.</summary>
    /// <param name="value">A finite number.</param>
    /// <param name="decimals">Decimals from 0 to 10.</param>
    public static string Fixed(double value, int decimals = 2)
    {
        var text = Math.Abs(value).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        var isNought = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return value < 0 && !isNought ? TrueMinus + text : text;
    }

    /// <summary>A number with its sign always shown, for differences.</summary>
    public static string Difference(double value, int decimals = 2)
    {
        var text = Fixed(value, decimals);
        var isNought = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return value > 0 && !isNought ? "+" + text : text;
    }

    /// <summary>An interval as <c>low to high</c>.</summary>
    public static string Interval(double low, double high, int decimals = 2) => $"{Fixed(low, decimals)} to {Fixed(high, decimals)}";

    /// <summary>An interval of a difference as <c>low to high</c>, signs shown.</summary>
    public static string DifferenceInterval(double low, double high, int decimals = 2) => $"{Difference(low, decimals)} to {Difference(high, decimals)}";

    /// <summary>
    /// A share or probability in whole per cent; never a flat 0 or 100 where it is neither, since an estimate is not a certainty.
    /// </summary>
    /// <param name="share">From 0 to 1.</param>
    public static string Percent(double share) => share switch
    {
        > 0 and < 0.005 => "under 1 %",
        < 1 and > 0.995 => "over 99 %",
        _ => $"{Math.Round(100 * share, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture)} %",
    };

    /// <summary>
    /// A probability that was estimated, from draws or otherwise, in whole per cent; never a flat 0 or 100, whatever the draws,
    /// since none of so many is not never.
    /// </summary>
    /// <param name="probability">From 0 to 1.</param>
    public static string Probability(double probability) => probability switch
    {
        < 0.005 => "under 1 %",
        > 0.995 => "over 99 %",
        _ => Percent(probability),
    };

    /// <summary>A p-value by three decimals; never a flat nought.</summary>
    /// <param name="p">From 0 to 1.</param>
    public static string P(double p) => p < 0.001 ? "under 0.001" : Fixed(p, 3);

    /// <summary>A day as <c>2025-03-09</c>.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A count with its noun in the singular or plural.</summary>
    /// <param name="count">How many.</param>
    /// <param name="singular">The noun for one.</param>
    /// <param name="plural">The noun for many; the singular with an s where not given.</param>
    public static string Count(int count, string singular, string? plural = null) =>
        $"{count.ToString(CultureInfo.InvariantCulture)} {(count == 1 ? singular : plural ?? singular + "s")}";
}
