using System.Globalization;

namespace TastingKit;

/// <summary>The repeats among scored cups, and the cups that are left when of each set only the first is kept.</summary>
internal sealed class RepeatCups
{
    // Two brews of one recipe come out within this of one another; further apart, something was not the same.
    private const double SameStrength = 0.1;

    private static readonly string[] NumbersOfRepeats = ["replicate", "repeat", "rep"];

    private RepeatCups(IReadOnlyList<RepeatSet> sets, IReadOnlyList<Tasting> others, int withoutGrind)
    {
        Sets = sets;
        Others = others;
        WithoutGrind = withoutGrind;
    }

    public IReadOnlyList<RepeatSet> Sets { get; }

    /// <summary>All cups but the second and further ones of each set, in their order.</summary>
    public IReadOnlyList<Tasting> Others { get; }

    /// <summary>Sets whose cups state no grind, so that a change of it would pass unseen.</summary>
    public int WithoutGrind { get; }

    /// <summary>
    /// Cups are repeats where all that was chosen beforehand is the same: bag, day, sitting, taster, brewer and whole recipe, what was hidden,
    /// and every column of the log's own, which may be a factor the kit knows nothing of.
    /// </summary>
    public static RepeatCups Of(IReadOnlyList<Tasting> cups)
    {
        var own = OwnColumns(cups);
        var sets = new List<RepeatSet>();
        var further = new HashSet<Tasting>(ReferenceEqualityComparer.Instance);
        var withoutGrind = 0;
        foreach (var set in AlikeSets(cups, own, IsBlind))
        {
            sets.Add(new RepeatSet(set[0].Bag, set[0].TastedOn, IsBlind(set[0]), [.. set.Select(cup => cup.Score!.Value)]));
            further.UnionWith(set.Skip(1));
            withoutGrind += set[0].Grind is null ? 1 : 0;
        }

        return new RepeatCups(sets, [.. cups.Where(cup => !further.Contains(cup))], withoutGrind);
    }

    /// <summary>
    /// The log's own columns that may be factors or covariates. One with another word in every cup, such as a cup's code, names cups and
    /// makes no two of them differ; nor does one that by its header numbers repeats.
    /// </summary>
    public static IReadOnlyList<string> OwnColumns(IReadOnlyList<Tasting> cups) =>
        [.. cups.SelectMany(cup => cup.OtherColumns).GroupBy(cell => cell.Key)
            .Where(column => !NumbersOfRepeats.Contains(column.Key, StringComparer.OrdinalIgnoreCase))
            .Where(column => column.Count() > column.Select(cell => cell.Value).Distinct().Count() || column.Count() == 1)
            .Select(column => column.Key).Order(StringComparer.Ordinal)];

    /// <summary>Sets of two and more cups of which the same holds, but for what was hidden from the taster.</summary>
    public static IEnumerable<Tasting[]> BrewedAlike(IReadOnlyList<Tasting> cups) => AlikeSets(cups, OwnColumns(cups), _ => false);

    private static IEnumerable<Tasting[]> AlikeSets(IReadOnlyList<Tasting> cups, IReadOnlyList<string> own, Func<Tasting, bool> apart) =>
        cups.GroupBy(cup => (KeyOf(cup, own), apart(cup))).Select(alike => alike.ToArray()).Where(set => set.Length > 1 && IsOneStrength(set));

    private static bool IsOneStrength(Tasting[] set)
    {
        double[] strengths = [.. set.Select(cup => cup.TdsPercent).OfType<double>()];
        return strengths.Length < 2 || strengths.Max() - strengths.Min() <= SameStrength;
    }

    private static bool IsBlind(Tasting cup) => cup.BlindTo.HasFlag(BlindTo.Coffee);

    private static string KeyOf(Tasting cup, IReadOnlyList<string> own)
    {
        // Weights and temperatures count as the same where a kitchen scale and a kettle would show the same.
        string?[] parts =
        [
            cup.Bag.Id, cup.TastedOn.ToString("O", CultureInfo.InvariantCulture), cup.Session, cup.Taster, cup.Purpose.ToString(),
            cup.Brewer, cup.Filter, cup.Grinder, cup.Grind, cup.Water, cup.Recipe, cup.RecipeFrom,
            Rounded(cup.DoseGrams, 0.5), Rounded(cup.WaterGrams, 5), Rounded(cup.WaterCelsius, 1), cup.CupTemperature,
            cup.FrozenDays.ToString(CultureInfo.InvariantCulture), .. own.Select(column => cup.OtherColumns.GetValueOrDefault(column)),
        ];
        return string.Join('\u001f', parts.Select(part => part is null ? "-" : $"+{part}"));
    }

    private static string? Rounded(double? value, double to) =>
        value is { } number ? Math.Round(number / to, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture) : null;
}
