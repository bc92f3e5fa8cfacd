using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="RestCourse"/>.</summary>
internal static class RestAnalysis
{
    private const int Draws = 4000;
    private const int FewestCups = 30;
    private const string Estimator =
        "restricted maximum likelihood; the bag's mean of each brewing term is a term of its own, so that the course is one within bags; "
        + "the band is the middle 95 % of joint draws day by day; a peak is named only if the course differs from a flat one (F test at 5 %) "
        + "and both the rise to it and the fall after it have 97.5 % of the draws";

    public static RestCourse Of(TastingLog log, ulong seed)
    {
        var scored = ScoredCups.Of(log).WithKnownRest();
        var scale = log.ScaleOf(TastingAttribute.Score);
        Tasting[] cups = [.. scored.Cups];
        var leftOut = scored.LeftOut;
        var byDay = cups.GroupBy(c => c.RestDays!.Value).OrderBy(g => g.Key)
            .Select(g => new RestCups(g.Key, g.Average(c => c.Score!.Value), g.Count())).ToArray();

        RestCourse Unsupported(Support why) => new(
            [], byDay, new RestShape.Undetermined("the log does not support a course"), new StandardBrew(null, null, null), scale, [],
            new Computation("none", "none", cups.Length, leftOut), why);

        if (cups.Length == 0)
        {
            return Unsupported(Support.Missing(
                "No scored cup has a known rest, since no bag has a roast date: nothing can be said of rest.",
                "Write the roast date of each bag."));
        }

        var columns = ScoreColumns.Of(cups);
        var repeats = cups.Length - cups.Select(c => c.Bag.Id).Distinct().Count();
        if (columns.Rest is not { } rest || cups.Length < FewestCups || repeats < FewestCups / 2)
        {
            return Unsupported(Support.Missing(
                $"{NumberText.Count(cups.Length, "scored cup")} on {NumberText.Count(byDay.Length, "day")} of rest, {repeats} of them repeats within a bag: too few to draw a course.",
                "Brew each bag on several days from early to late rest."));
        }

        var bag = CategoricalColumn.From(Factor.Bag.Name, [.. cups.Select(Factor.Bag.LevelOf)]);
        var design = columns.AddBrewTo(ModelDesign.For("score", columns.Scores));
        foreach (var column in new Column?[] { columns.Brewer, columns.RecipeFrom, rest })
            design = WithinCoffees.AddMeans(design, bag, column);
        if (ScoreFit.Of(design.WithRandomIntercept(bag), log.Watch) is not { } fit)
            return Unsupported(ScoreFit.NoChanceLeft(cups.Length));

        var brew = columns.CommonBrew() with { RestDays = null };
        var days = byDay.SelectMany(d => Enumerable.Repeat(d.RestDays, d.Cups)).ToArray();
        var (first, last) = (days[(int)(0.025 * (days.Length - 1))], days[(int)(0.975 * (days.Length - 1))]);
        var functions = Enumerable.Range(first, last - first + 1)
            .Select(day => fit.At(columns.At(brew with { RestDays = day }))).ToArray();
        var draws = PredictionDraws.Of(fit, functions, Draws, seed, log.Watch);
        var points = functions.Select((_, i) =>
        {
            var (mean, low, high) = draws.Middle(i);
            return new RestPoint(first + i, mean, low, high);
        }).ToArray();
        var shape = ShapeOf(draws, first, fit.Test(rest.Name).P);
        var words = $"linear mixed model of the score; fixed: {columns.BrewInWords()}, and the bag's mean of each; random intercepts: {string.Join(", ", columns.RandomTerms.Prepend("bag"))}";
        return new RestCourse(
            points, byDay, shape, brew, scale, [.. Cautions(cups), .. new[] { ScoreCautions.EquipmentChanged(log, cups) }.OfType<Caution>()], new Computation(words, Estimator, cups.Length, leftOut, seed), Support.Given);
    }

    private static RestShape ShapeOf(PredictionDraws draws, int firstDay, double p)
    {
        if (p > 0.05)
            return new RestShape.Undetermined($"its course is not told from a flat one (p = {NumberText.Fixed(p)})");
        var days = draws.Width;
        var means = Enumerable.Range(0, days).Select(d => Average(draws.Column(d))).ToArray();
        var top = Array.IndexOf(means, means.Max());
        var rises = ShareAbove(draws, top, 0);
        var falls = ShareAbove(draws, top, days - 1);
        if (rises >= 0.975 && falls >= 0.975)
        {
            var peaks = new double[draws.Count];
            for (var r = 0; r < peaks.Length; r++)
                peaks[r] = firstDay + PeakOf(draws, r);
            Array.Sort(peaks);
            return new RestShape.Peak(
                firstDay + top, (int)Math.Round(Quantiles.OfSorted(peaks, 0.025)), (int)Math.Round(Quantiles.OfSorted(peaks, 0.975)));
        }

        var risesOverall = ShareAbove(draws, days - 1, 0);
        if (risesOverall >= 0.975 && rises >= 0.975)
            return new RestShape.Rising();
        if (risesOverall <= 0.025 && falls >= 0.975)
            return new RestShape.Falling();
        return new RestShape.Undetermined("the course is not flat, but the days tasted do not fix where its peak lies");
    }

    private static double Average(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
            sum += value;
        return sum / values.Length;
    }

    private static double ShareAbove(PredictionDraws draws, int upper, int lower)
    {
        var above = 0;
        for (var r = 0; r < draws.Count; r++)
        {
            if (draws[r, upper] > draws[r, lower])
                above++;
        }

        return (double)above / draws.Count;
    }

    private static int PeakOf(PredictionDraws draws, int row)
    {
        var peak = 0;
        for (var d = 1; d < draws.Width; d++)
        {
            if (draws[row, d] > draws[row, peak])
                peak = d;
        }

        return peak;
    }

    private static List<Caution> Cautions(IReadOnlyList<Tasting> cups)
    {
        var cautions = new List<Caution>
        {
            new("rest-runs-with-calendar",
                "Inside one bag the days of rest, the days since opening, the calendar and the number of the cup run together: this course holds them all, and a moving scale would tilt it."),
        };
        var processes = cups.Select(Factor.Process.LevelOf).Distinct().Count();
        if (processes > 1)
            cautions.Add(new Caution("one-course-for-all", $"One course for {processes} processes and all roast levels: a single coffee may peak earlier or later."));
        return cautions;
    }
}
