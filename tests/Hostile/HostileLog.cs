using System.Globalization;
using System.Text;

namespace TastingKit.Tests.Hostility;

/// <summary>
/// A small log that holds hostile texts in every place that a person fills: names, words, notes, remarks, and the name of a column.
/// Each ends in the name of its place and a number, so that it is known again where it is shown.
/// </summary>
internal static class HostileLog
{
    private const int CupsOfCoffee = 6;

    /// <summary>The places, as the endings of their texts name them.</summary>
    internal static IReadOnlyList<string> Places { get; } =
        ["coffee", "roaster", "process", "country", "region", "brewer", "recipe", "note", "remark", "attribute", "change"];

    /// <summary>Writes the log's files.</summary>
    /// <param name="folder">A folder that exists.</param>
    /// <param name="texts">The texts, each in all places of its coffees.</param>
    /// <param name="coffees">How many coffees a text has.</param>
    internal static void Write(string folder, IReadOnlyList<HostileText> texts, int coffees = 2)
    {
        var (bags, cups) = (new StringBuilder(), new StringBuilder());
        var (changes, scales) = (new StringBuilder("changed_on,what,from,to\n"), new StringBuilder("attribute,kind,min,max,step\n"));
        bags.Append("bag_id,roaster,coffee,country,region,process,roast_date\n");
        Append(cups, ["tasting_id", "bag_id", "tasted_at", "brewer", "recipe", "recipe_from", "score", "notes", "remark", .. texts.Select((text, i) => $"{text.Value} {i} attribute")]);
        for (var coffee = 0; coffee < coffees * texts.Count; coffee++)
        {
            var (text, turn) = (texts[coffee % texts.Count].Value, coffee / texts.Count);
            var roasted = new DateOnly(2025, 1, 1).AddDays(3 * coffee);
            Append(bags, [$"b{coffee}", $"{text} roaster{turn % 3}", $"{text} coffee{turn}", $"{text} country{turn % 2}", $"{text} region{turn % 2}", $"{text} process{turn % 2}", Iso(roasted)]);
            for (var cup = 0; cup < CupsOfCoffee; cup++)
            {
                Append(cups,
                [
                    $"t{coffee}-{cup}", $"b{coffee}", Iso(roasted.AddDays(8 + (5 * cup))) + "T08:30", $"{text} brewer{cup % 2}", $"{text} recipe{cup % 2}", cup % 2 == 0 ? "house" : "roaster",
                    Number(6 + (0.5 * ((((coffee * 7) + (cup * 3)) % 5) - 1)) - (0.5 * (cup % 2))), $"{text} note{cup % 3}", $"{text} remark{turn}",
                    .. texts.Select((_, column) => Number((coffee + cup + column) % 15)),
                ]);
            }
        }

        for (var i = 0; i < texts.Count; i++)
        {
            Append(scales, [$"{texts[i].Value} {i} attribute", "intensity", "0", "15", "1"]);
            Append(changes, [Iso(new DateOnly(2025, 2, 1).AddDays(i)), "water", $"{texts[i].Value} change0", $"{texts[i].Value} change1"]);
        }

        foreach (var (name, content) in new[] { ("bags.csv", bags), ("tastings.csv", cups), ("changes.csv", changes), ("scales.csv", scales) })
            File.WriteAllBytes(Path.Combine(folder, name), Encoding.UTF8.GetBytes(content.ToString()));
    }

    private static void Append(StringBuilder file, IReadOnlyList<string> cells) =>
        file.AppendJoin(',', cells.Select(cell => '"' + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + '"')).Append('\n');

    private static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Number(double number) => number.ToString(CultureInfo.InvariantCulture);
}
