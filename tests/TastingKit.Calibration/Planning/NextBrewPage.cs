using System.Globalization;
using System.Text;

namespace TastingKit.Calibration.Planning;

/// <summary>The calibration of what to brew next, by rules that were fixed before the first run.</summary>
internal static class NextBrewPage
{
    /// <summary>Runs the years and writes the page.</summary>
    /// <param name="races">Races of each kind of log.</param>
    /// <param name="namings">Years in which the best is named.</param>
    /// <param name="made">Told after each year.</param>
    public static string Write(int races, int namings, Action<string> made)
    {
        var text = new StringBuilder()
            .AppendLine("# What to brew next, held against simulated years").AppendLine()
            .AppendLine("Written by `dotnet run -c Release --project tests/TastingKit.Calibration -- next-brew`. The rules were fixed before the first run.").AppendLine()
            .AppendLine("## Cups needed, by the plan over every bag on every brewer in turn").AppendLine()
            .AppendLine("The 95 % interval of two brewers' difference is brought to 85 % of its width; 90 cups of 12 bags to begin with. Rule: median ratio at most 0.8 on")
            .AppendLine("unbalanced logs (85 % of the cups on one brewer), at most 1.1 on balanced ones.").AppendLine()
            .AppendLine("| log | years | median ratio | quartiles | rule |").AppendLine("|---|---|---|---|---|");
        foreach (var (name, share, most) in new[] { ("unbalanced", 0.85, 0.8), ("balanced", 0.5, 1.1) })
        {
            var ratios = new List<double>();
            for (var seed = 1; seed <= races; seed++)
            {
                ratios.Add(BrewRace.RatioOf(share, (ulong)seed));
                made(string.Create(CultureInfo.InvariantCulture, $"{name} {seed}: {ratios[^1]:F2}"));
            }

            ratios.Sort();
            text.AppendLine(string.Create(CultureInfo.InvariantCulture, $"| {name} | {races} | {Middle(ratios, 0.5):F2} | {Middle(ratios, 0.25):F2} to {Middle(ratios, 0.75):F2} | {(Middle(ratios, 0.5) <= most ? "kept" : "BROKEN")} |"));
        }

        text.AppendLine().AppendLine("## The promised probability of naming the best").AppendLine()
            .AppendLine("Eight coffees, 64 cups, then the four cups of the plan. Rule: the realised rate lies within 0.03 and two standard errors of the mean promised probability.").AppendLine()
            .AppendLine("| when | years | promised | realised | standard error | rule |").AppendLine("|---|---|---|---|---|---|");
        var years = new List<NamingPromise>();
        for (var seed = 1; seed <= namings; seed++)
        {
            years.Add(NamingPromise.Of(1000 + (ulong)seed));
            made(string.Create(CultureInfo.InvariantCulture, $"naming {seed}"));
        }

        foreach (var isAfter in new[] { false, true })
        {
            var (promised, realised, error) = NamingPromise.Compare(years, isAfter);
            text.AppendLine(string.Create(CultureInfo.InvariantCulture, $"| {(isAfter ? "after the plan" : "now")} | {years.Count} | {promised:F3} | {realised:F3} | {error:F3} | {(Math.Abs(promised - realised) <= 0.03 + (2 * error) ? "kept" : "BROKEN")} |"));
        }

        return text.ToString();
    }

    private static double Middle(List<double> sorted, double share) => sorted[(int)Math.Round(share * (sorted.Count - 1))];
}
