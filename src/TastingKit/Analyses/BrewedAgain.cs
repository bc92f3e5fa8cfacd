using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Whether what a cup scored decided that its bag was brewed again in the same sitting. Days with such cups hold more cups for that reason, so that the
/// number of cups that day goes with scores whatever it does to them; and where the poor cup is then called failed, the scatter is of those that were kept.
/// </summary>
internal static class BrewedAgain
{
    private const int FewestFollowed = 10;

    /// <summary>
    /// By what is left of cups whose bag is brewed again next in their sitting, on the same brewer, against as many cups drawn at random; two-sided, since
    /// a good cup may be brewed again as well as a poor one.
    /// </summary>
    /// <param name="residuals">What is left of each cup.</param>
    /// <param name="cups">The cups.</param>
    /// <param name="tasted">Every cup that was tasted, scored or failed.</param>
    /// <param name="consequence">What follows for the analysis, in a sentence.</param>
    /// <param name="seed">Seed of the shuffling.</param>
    public static Caution? In(IReadOnlyList<double> residuals, IReadOnlyList<Tasting> cups, IReadOnlyList<Tasting> tasted, string consequence, ulong seed)
    {
        var followed = Followed(tasted);
        int[] rows = [.. Enumerable.Range(0, cups.Count).Where(row => followed.Contains(cups[row].Id))];
        if (rows.Length < FewestFollowed || cups.Count - rows.Length < FewestFollowed)
            return null;
        double[] left = [.. residuals];
        var usual = left.Average();
        var observed = Beyond();
        var isBeyondChance = ScoreCautions.IsBeyondChance(Math.Abs(observed), new RandomStream(seed).Split(5), random =>
        {
            random.Shuffle<double>(left);
            return Math.Abs(Beyond());
        });
        return !isBeyondChance ? null : new Caution("brewed-again",
            $"The {NumberText.Count(rows.Length, "cup")} brewed again next in the sitting, from the same bag on the same brewer, lie {NumberText.Fixed(Math.Abs(observed))} points {(observed < 0 ? "below" : "above")} what was to be expected of them: "
            + $"{(observed < 0 ? "poor" : "good")} cups seem to be brewed again for their score. {consequence}");

        double Beyond() => rows.Average(row => left[row]) - usual;
    }

    /// <summary>Cups after which the same bag comes next in the sitting, on the same brewer; coded ones were poured together, before either had a score.</summary>
    private static HashSet<string> Followed(IReadOnlyList<Tasting> tasted) =>
        ScoreColumns.Neighbours(tasted).Select(rows => (First: tasted[rows.First], Second: tasted[rows.Second]))
            .Where(pair => pair.First.Bag.Id == pair.Second.Bag.Id && pair.First.Brewer == pair.Second.Brewer && !pair.First.BlindTo.HasFlag(BlindTo.Coffee))
            .Select(pair => pair.First.Id).ToHashSet(StringComparer.Ordinal);
}
