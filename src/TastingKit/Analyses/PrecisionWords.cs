using TastingKit.Statistics;

namespace TastingKit;

/// <summary>The sentences of <see cref="TastingPrecision"/>.</summary>
internal static class PrecisionWords
{
    private const double Rare = 0.05;

    public static IReadOnlyList<string> Of(TastingPrecision precision)
    {
        var sentences = new List<string>
        {
            precision.Repeatability.Match(
                one => $"Two blind cups of one brew on one day are scored within {NumberText.Fixed(TastingPrecision.LimitPerDeviation * one.Estimate)} points of one another 95 times in 100: "
                    + $"the repeatability of one cup is a standard deviation of {Said(one)}.",
                no => $"How repeatable the scores are can't be said: {MethodWords.Lowered(no.Reason)}"),
        };
        precision.Repeatability.Match(
            one =>
            {
                if (precision.Step > 0)
                    sentences.Add($"On steps of {NumberText.Fixed(precision.Step, precision.Step < 0.1 ? 2 : 1)}, two such cups are {NumberText.Fixed(RoundedSpread.RareDifference(one.Estimate, precision.Step, Rare), precision.Step < 0.1 ? 2 : 1)} points or more apart less than once in twenty.");
                return 0;
            },
            no =>
            {
                sentences.Add(no.WhatToLog);
                return 0;
            });
        Add(precision.DayToDay, one => $"From day to day, at equal bag, brewer, recipe and rest, one cup scatters by {Said(one)}; this holds the brewing and the day as well as the taster, and is no repeatability.");
        Add(precision.BetweenSittings, one => one.Low > 0
            ? $"Of this, what all cups of a sitting share is {Said(one)}."
            : $"Whether sittings differ at all is not told: their standard deviation may be anything up to {NumberText.Fixed(one.High)} ({one.From}).");
        Add(precision.IntraclassCorrelation, one => $"Between the log's coffees lies {NumberText.Percent(one.Estimate)} of the variance of single cups (95 % interval {NumberText.Percent(one.Low)} to {NumberText.Percent(one.High)}; {one.From}).");
        Add(precision.SightedAgainstBlind, one => (one.High < 1
                ? "Knowing which coffee it is makes repeats agree better than the palate does"
                : one.Low > 1 ? "Repeats agree less where the coffee is known" : "Whether knowing the coffee makes repeats agree better is undecided")
            + $": sighted repeats scatter {NumberText.Fixed(one.Estimate)} times as much as blind ones (95 % interval {NumberText.Interval(one.Low, one.High)}; {one.From}).");
        Add(precision.PositionEffect, one => Slope("Each further place in a sitting", one));
        Add(precision.CupsThatDayEffect, one => Slope("Each further cup that day", one));
        Add(precision.FirstCup, one => $"A coffee's first cup goes with the mean of its later ones by a correlation of {NumberText.Fixed(one.Estimate)} (95 % interval {NumberText.Interval(one.Low, one.High)}; {one.From}).");
        Add(precision.CupsForAVerdict, one => $"A verdict within {NumberText.Fixed(precision.HalfWidth)} points of where many more cups would take it asks for {NumberText.Fixed(one.Estimate, 0)} cups on as many days (95 % interval {NumberText.Fixed(one.Low, 0)} to {NumberText.Fixed(one.High, 0)}).");
        return sentences;

        void Add(PartAnswer answer, Func<PartAnswer.Estimated, string> say) => sentences.AddRange(answer.Match<string[]>(one => [say(one)], _ => []));
    }

    private static string Said(PartAnswer.Estimated one) => $"{NumberText.Fixed(one.Estimate)} points (95 % interval {NumberText.Interval(one.Low, one.High)}; {one.From})";

    private static string Slope(string what, PartAnswer.Estimated one) =>
        one.Low > 0 || one.High < 0
            ? $"{what} {(one.Estimate > 0 ? "adds" : "takes")} {NumberText.Fixed(Math.Abs(one.Estimate))} points (95 % interval {NumberText.DifferenceInterval(one.Low, one.High)})."
            : $"{what} makes no difference that can be told (95 % interval {NumberText.DifferenceInterval(one.Low, one.High)} points).";
}
