using System.Globalization;
using System.Text;

namespace TastingKit.Calibration.Planning;

/// <summary>The calibration of what to brew next, by rules and seeds that were fixed before the run.</summary>
internal static class NextBrewPage
{
    private const ulong SeedsOfUnbalanced = 5000;
    private const ulong SeedsOfBalanced = 6000;
    private const ulong SeedsOfNaming = 7000;

    /// <summary>Runs the years and writes the page.</summary>
    /// <param name="races">Races of each kind of log.</param>
    /// <param name="namings">Years in which the best is named.</param>
    /// <param name="made">Told after each year.</param>
    public static string Write(int races, int namings, Action<string> made)
    {
        var text = new StringBuilder()
            .AppendLine("# What to brew next, held against simulated years").AppendLine()
            .AppendLine("Written by `dotnet run -c Release --project tests/TastingKit.Calibration -- next-brew`. Rules and seeds were fixed before the run; the plan was worked out on")
            .AppendLine("other seeds.").AppendLine();
        Races(text, races, made);
        Namings(text, namings, made);
        return text.ToString();
    }

    private static void Races(StringBuilder text, int races, Action<string> made)
    {
        text.AppendLine("## Cups needed, by the plan over every bag on every brewer in turn").AppendLine()
            .AppendLine("Of 90 cups of 12 bags, the 95 % interval of two brewers' difference is brought to 85 % of its width: the interval that a reader is shown of what the brewer")
            .AppendLine("does (MethodEffects), asked after every two cups with all variances estimated anew. Both ways choose from the same bags and brewers. Rule: median ratio at")
            .AppendLine("most 0.8 on unbalanced logs (85 % of the cups on one brewer), at most 1.1 on balanced ones. Promised: the width that the plan's first eight cups were said to")
            .AppendLine("lead to, over the width that they led to, mean over years; above 1 they led to a narrower one. Rule: at least 0.95.").AppendLine()
            .AppendLine("| log | seeds | years | cups by the plan, median | cups in turn, median | median ratio | quartiles | rule | promised | rule |").AppendLine("|---|---|---|---|---|---|---|---|---|---|");
        foreach (var (name, share, most, seeds) in new[] { ("unbalanced", 0.85, 0.8, SeedsOfUnbalanced), ("balanced", 0.5, 1.1, SeedsOfBalanced) })
        {
            var years = new List<BrewRace>();
            for (var year = 1; year <= races; year++)
            {
                years.Add(BrewRace.Of(share, seeds + (ulong)year));
                made(string.Create(CultureInfo.InvariantCulture, $"{name} {year}: {years[^1].ByPlan} by the plan, {years[^1].InTurn} in turn"));
            }

            double[] ratios = [.. years.Select(year => year.Ratio).Order()];
            var promised = years.Average(year => year.Promised);
            text.AppendLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {name} | {seeds + 1} to {seeds + (ulong)races} | {races} | {Middle([.. years.Select(year => (double)year.ByPlan).Order()], 0.5):F0} | {Middle([.. years.Select(year => (double)year.InTurn).Order()], 0.5):F0} | {Middle(ratios, 0.5):F2} | {Middle(ratios, 0.25):F2} to {Middle(ratios, 0.75):F2} | {Kept(Middle(ratios, 0.5) <= most)} | {promised:F2} | {Kept(promised >= 0.95)} |"));
        }
    }

    private static void Namings(StringBuilder text, int namings, Action<string> made)
    {
        var years = new List<NamingPromise>();
        for (var year = 1; year <= namings; year++)
        {
            years.Add(NamingPromise.Of(SeedsOfNaming + (ulong)year));
            made(string.Create(CultureInfo.InvariantCulture, $"naming {year}"));
        }

        text.AppendLine().AppendLine("## The promised probability of naming the best").AppendLine()
            .AppendLine(string.Create(CultureInfo.InvariantCulture, $"Eight coffees, 64 cups, then the four cups of the plan; seeds {SeedsOfNaming + 1} to {SeedsOfNaming + (ulong)namings}. Rule: the realised rate lies within 0.03 and two standard errors"))
            .AppendLine("of the mean promised probability, and the realised rise, each year held against itself, within 0.01 and two standard errors of the promised one. The standard")
            .AppendLine("error is that of promised less realised.").AppendLine()
            .AppendLine("| what | years | promised | realised | promised less realised | standard error | rule |").AppendLine("|---|---|---|---|---|---|---|");
        var rise = NamingPromise.CompareRise(years);
        foreach (var (what, kept, allowed) in new[] { ("now", NamingPromise.Compare(years, false), 0.03), ("after the plan", NamingPromise.Compare(years, true), 0.03), ("rise by the plan", rise, 0.01) })
        {
            var difference = kept.Promised - kept.Realised;
            text.AppendLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {what} | {years.Count} | {kept.Promised:F3} | {kept.Realised:F3} | {difference:F3} | {kept.ErrorOfDifference:F3} | {Kept(Math.Abs(difference) <= allowed + (2 * kept.ErrorOfDifference))} |"));
        }

        text.AppendLine().AppendLine(string.Create(
            CultureInfo.InvariantCulture,
            $"The realised rise stands {rise.Realised / rise.ErrorOfRealised:F1} of its standard errors ({rise.ErrorOfRealised:F3}) above nought. Rule: at least 2: {Kept(rise.Realised >= 2 * rise.ErrorOfRealised)}."));
    }

    private static string Kept(bool isKept) => isKept ? "kept" : "BROKEN";

    private static double Middle(double[] sorted, double share) => sorted[(int)Math.Round(share * (sorted.Length - 1))];
}
