using TastingKit.Reading;
using static TastingKit.Checking.RowsToCheck;

namespace TastingKit.Checking;

/// <summary>Finds cups whose score is not the sum of their attributes, in a log whose scores are sums.</summary>
internal static class ScoreSums
{
    private const int FewestAttributes = 3;
    private const int FewestCups = 20;
    private const int Sampled = 200;
    private const double ShareOfSums = 0.9;

    // Ten attributes rounded to hundredths each are off by this at the most.
    private const double Allowance = 0.05;

    public static void Run(RowsToCheck rows)
    {
        TastingAttribute[] attributes = [.. rows.ScoredColumns.Select(scale => scale.Attribute).Where(attribute => !attribute.Equals(TastingAttribute.Score))];
        if (attributes.Length < FewestAttributes || attributes.Length == rows.ScoredColumns.Count)
            return;
        // The first cups show whether the scores of this log are sums at all; few logs' are.
        var sample = Enumerable.Range(0, rows.Cups.Length).Where(i => Sum(rows.Cups[i], attributes) is not null).Take(Sampled).ToList();
        if (sample.Count < FewestCups || sample.Count(i => AddsUp(rows.Cups[i], attributes)) < ShareOfSums * sample.Count)
            return;
        int[] full = [.. Enumerable.Range(0, rows.Cups.Length).Where(i => Sum(rows.Cups[i], attributes) is not null)];
        int[] off = [.. full.Where(i => !AddsUp(rows.Cups[i], attributes))];
        if (full.Length - off.Length < ShareOfSums * full.Length)
            return;
        foreach (var index in off)
        {
            var cup = rows.Cups[index];
            var sum = Number(Math.Round(Sum(cup, attributes)!.Value, 4));
            rows.OnCup(index, Severity.Doubtful, "score", Number(cup.Score!.Value), new CellFault(Rule.SumContradicts,
                FormattableString.Invariant($"The attributes add up to {sum}; in {full.Length - off.Length} of {full.Length} cups they add up to the score. The values were kept."),
                "a score that is the sum, or the attribute that was meant")
            {
                Beside = $"sum {sum}",
            });
        }
    }

    private static bool AddsUp(Tasting cup, TastingAttribute[] attributes) => Math.Abs(Sum(cup, attributes)!.Value - cup.Score!.Value) <= Allowance;

    /// <summary>The sum, of a cup that has the score and every attribute.</summary>
    private static double? Sum(Tasting cup, TastingAttribute[] attributes)
    {
        if (cup.Score is null)
            return null;
        var sum = 0.0;
        foreach (var attribute in attributes)
        {
            if (cup.ValueOf(attribute) is not { } value)
                return null;
            sum += value;
        }

        return sum;
    }
}
