using System.Globalization;
using System.Text;
using TastingKit.Statistics;
using TastingKit.Tests.Log.Reading;

namespace TastingKit.Benchmarks.Reading;

/// <summary>A clean log of many cups in 23 columns, made from a seed: the same bytes each time.</summary>
internal static class LargeLog
{
    public const string Header =
        "tasting_id,bag_id,tasted_at,session,position,purpose,brewer,grinder,grind,water,recipe,dose_g,water_g,water_temp,brew_time,score,aroma,acidity,sweetness,body,clarity,notes,remark";

    private const string BagHeader = "bag_id,coffee,roaster,country,process,roast_date";
    private const int CupsABag = 500;
    private static readonly string[] Brewers = ["cone dripper", "flat-bed dripper", "immersion dripper", "press pot", "vacuum pot"];
    private static readonly string[] Waters = ["filtered tap", "spring", "remineralised"];
    private static readonly string[] Recipes = ["house", "roaster's own", "one pour", "four pours"];
    private static readonly string[] Words = ["apricot", "lime", "cocoa", "black tea", "honey", "cherry", "jasmine", "hazelnut", "plum", "caramel", "peach", "orange"];
    private static readonly string[] Remarks = ["", "", "", "", "kettle ran low", "poured slowly, twice", "ground a little finer"];

    /// <summary>Writes bags.csv and tastings.csv into a folder.</summary>
    public static void Write(string folder, int cups)
    {
        Directory.CreateDirectory(folder);
        using (var bags = new StreamWriter(Path.Combine(folder, "bags.csv"), false, new UTF8Encoding(false)))
        {
            bags.Write(BagHeader + "\n");
            foreach (string[] row in Bags(cups))
                bags.Write(string.Join(',', row) + "\n");
        }

        using var tastings = new StreamWriter(Path.Combine(folder, "tastings.csv"), false, new UTF8Encoding(false));
        tastings.Write(Header + "\n");
        foreach (string[] row in Rows(cups))
            tastings.Write(string.Join(',', row.Select(cell => cell.Contains(',', StringComparison.Ordinal) ? $"\"{cell}\"" : cell)) + "\n");
    }

    /// <summary>Writes the same log as a workbook, its cells stored as a spreadsheet stores numbers, days, times and texts.</summary>
    public static void WriteWorkbook(string path, int cups) => WorkbookFile.Write(
        path,
        shareTexts: true,
        ("bags", Bags(cups).Select(Stored).Prepend(BagHeader.Split(','))),
        ("tastings", Rows(cups).Select(Stored).Prepend(Header.Split(','))));

    /// <summary>The rows of the bags below the header, cell by cell.</summary>
    public static IEnumerable<string[]> Bags(int cups)
    {
        for (int bag = 0; bag * CupsABag < cups; bag++)
        {
            string roasted = At(bag * CupsABag).AddDays(-14).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            yield return [BagId(bag), $"Coffee {Number(bag)}", $"Roaster {Number(bag % 40)}", "Ethiopia", "washed", roasted];
        }
    }

    /// <summary>The rows below the header, cell by cell.</summary>
    public static IEnumerable<string[]> Rows(int cups)
    {
        var random = new RandomStream(11);
        for (int cup = 0; cup < cups; cup++)
        {
            DateTime at = At(cup);
            int dose = 12 + random.NextInt32(9);
            yield return
            [
                $"t{cup.ToString("D7", CultureInfo.InvariantCulture)}", BagId(cup / CupsABag),
                at.ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture), at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                Number(1 + cup % 6), "verdict", Of(Brewers), "flat burrs", Number(18 + random.NextInt32(12)), Of(Waters), Of(Recipes),
                dose + ".5", Number(dose * 16), Number(88 + random.NextInt32(9)) + "C", $"{2 + random.NextInt32(2)}:{random.NextInt32(60).ToString("D2", CultureInfo.InvariantCulture)}",
                Step(5, 9), Step(4, 22), Step(4, 22), Step(4, 22), Step(4, 22), Step(4, 22), $"{Of(Words)}; {Of(Words)}; {Of(Words)}", Of(Remarks),
            ];
        }

        string Of(string[] words) => words[random.NextInt32(words.Length)];
        string Step(int low, int count) => (low + random.NextInt32(count) * 0.5).ToString(CultureInfo.InvariantCulture);
    }

    private static object?[] Stored(string[] row) => [.. row.Select(Stored)];

    private static object? Stored(string cell) =>
        cell.Length == 0 ? null
        : double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? number
        : DateTime.TryParseExact(cell, ["yyyy-MM-dd", "yyyy-MM-dd'T'HH:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime moment) ? moment
        : cell;

    private static string BagId(int bag) => "b" + bag.ToString("D5", CultureInfo.InvariantCulture);

    private static DateTime At(int cup) => new DateTime(2024, 1, 1).AddMinutes(cup);

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
