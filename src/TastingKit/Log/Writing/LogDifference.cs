using System.Globalization;

namespace TastingKit.Writing;

/// <summary>Compares what two logs hold: bags, cups, scales and the records beside them. Names, reports and accounts are left out.</summary>
internal static class LogDifference
{
    /// <summary>The first thing that differs, as a sentence; <see langword="null"/> where nothing does.</summary>
    public static string? First(TastingLog left, TastingLog right) =>
        FirstOf("bag", left.Bags, right.Bags, bag => bag.Id, BagParts)
        ?? FirstOf("tasting", left.Tastings, right.Tastings, cup => cup.Id, CupParts)
        ?? FirstOf("scale", Scales(left), Scales(right), scale => scale.Attribute.Name, ScaleParts)
        ?? FirstOf("verdict", left.PublishedVerdicts, right.PublishedVerdicts, verdict => verdict.BagId, verdict => [("verdict", verdict.ToString())])
        ?? FirstOf("blind test", left.BlindTests, right.BlindTests, test => test.Id, test => [("test", test.ToString())])
        ?? FirstOf("change", left.Changes, right.Changes, change => change.What, change => [("change", change.ToString())])
        ?? FirstOf("word", left.Vocabulary.Own, right.Vocabulary.Own, entry => entry.Written, entry => [("word", entry.ToString())]);

    /// <summary>What of two bags differs, column by column; texts are empty or <see langword="null"/> where a bag says nothing.</summary>
    public static IEnumerable<(string Column, string? Left, string? Right)> Of(Bag left, Bag right) =>
        BagParts(left).Zip(BagParts(right), (a, b) => (a.Name, a.Text, b.Text)).Where(part => part.Item2 != part.Item3);

    /// <summary>Whether two cups say the same, of bags of one identifier.</summary>
    public static bool AreSame(Tasting left, Tasting right) => CupParts(left).SequenceEqual(CupParts(right));

    private static string? FirstOf<T>(
        string kind, IReadOnlyList<T> left, IReadOnlyList<T> right, Func<T, string> id, Func<T, IEnumerable<(string Name, string? Text)>> parts)
    {
        for (var i = 0; i < Math.Min(left.Count, right.Count); i++)
        {
            foreach (var ((name, here), (_, there)) in parts(left[i]).Zip(parts(right[i])))
            {
                if (here != there)
                    return $"{kind} '{id(left[i])}', {name}: '{here}' against '{there}'";
            }
        }

        return left.Count == right.Count ? null : FormattableString.Invariant($"{left.Count} against {right.Count} of kind {kind}");
    }

    private static IReadOnlyList<Scale> Scales(TastingLog log) =>
        [.. TastingAttribute.Defaults.Concat(log.Attributes).Append(TastingAttribute.Score).Distinct().OrderBy(a => a.Name, StringComparer.Ordinal).Select(log.ScaleOf)];

    private static IEnumerable<(string Name, string? Text)> ScaleParts(Scale scale) =>
        [("scale", FormattableString.Invariant($"{scale.Attribute} {scale.Kind} {scale.Min:R} {scale.Max:R} {scale.Step:R}"))];

    private static IEnumerable<(string Name, string? Text)> BagParts(Bag bag) =>
    [
        ("bag_id", bag.Id), ("coffee_id", bag.Coffee.Id), ("roaster", bag.Coffee.Roaster), ("coffee", bag.Coffee.Name), ("country", List(bag.Coffee.Countries)),
        ("region", bag.Coffee.Region), ("producer", bag.Coffee.Producer), ("lot", bag.Coffee.Lot), ("harvest", bag.Coffee.Harvest),
        ("variety", bag.Coffee.Variety), ("process", bag.Coffee.Process), ("fermentation", bag.Coffee.Fermentation), ("added", bag.Coffee.Added),
        ("decaf", bag.Coffee.Decaf?.ToString()), ("roast_level", bag.RoastLevel), ("roast_for", bag.RoastFor), ("roast_date", Text(bag.RoastDate)),
        ("opened_on", Text(bag.OpenedOn)), ("net_weight_g", Text(bag.NetWeightGrams)), ("price", Text(bag.Price)), ("currency", bag.Currency),
        ("obtained", bag.Obtained), ("test entry", bag.IsTestEntry.ToString()), ("other columns", Pairs(bag.OtherColumns)),
    ];

    private static IEnumerable<(string Name, string? Text)> CupParts(Tasting cup) =>
    [
        ("tasting_id", cup.Id), ("bag_id", cup.Bag.Id), ("tasted_at", $"{cup.TastedAt.Ticks} {cup.HasTimeOfDay}"), ("taster", cup.Taster),
        ("session", cup.Session), ("position", Text(cup.Position)), ("purpose", cup.Purpose.ToString()), ("failed", cup.Failed.ToString()),
        ("brewer", cup.Brewer), ("filter", cup.Filter), ("grinder", cup.Grinder), ("grind", cup.Grind), ("water", cup.Water), ("recipe", cup.Recipe),
        ("recipe_from", cup.RecipeFrom), ("dose_g", Text(cup.DoseGrams)), ("water_g", Text(cup.WaterGrams)), ("ratio", Text(cup.StatedRatio)), ("yield_g", Text(cup.YieldGrams)),
        ("water_temp", Text(cup.WaterCelsius)), ("brew_time", Text(cup.BrewTime)), ("tds_pct", Text(cup.TdsPercent)), ("frozen_on", Text(cup.FrozenOn)),
        ("thawed_on", Text(cup.ThawedOn)), ("cup_temp", cup.CupTemperature), ("blind_to", cup.BlindTo.ToString()), ("score", Text(cup.Score)),
        ("attributes", string.Join("; ", cup.Attributes.OrderBy(pair => pair.Key.Name, StringComparer.Ordinal).Select(pair => $"{pair.Key}={Text(pair.Value)}"))),
        ("notes", List(cup.Notes)), ("guess_process", cup.GuessedProcess), ("remark", cup.Remark), ("test entry", cup.IsTestEntry.ToString()),
        ("other columns", Pairs(cup.OtherColumns)),
    ];

    // U+001F parts the texts of a list, so that two never read as one.
    private static string List(IReadOnlyList<string> parts) => string.Join('\u001F', parts);

    private static string Pairs(IReadOnlyDictionary<string, string> pairs) =>
        string.Join('\u001F', pairs.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => $"{pair.Key}={pair.Value}"));

    private static string? Text(IFormattable? value) => value switch
    {
        null => null,
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        _ => value.ToString(null, CultureInfo.InvariantCulture),
    };
}
