using CsvHelper;

namespace TastingKit.Benchmarks.Reading;

/// <summary>The same row as CsvHelper's own mapper reads it: the yardstick of the reading benchmark.</summary>
[CsvRecord]
internal sealed partial class TypedCup
{
    [CsvColumn("tasting_id")] public string Id { get; set; } = "";
    [CsvColumn("bag_id")] public string BagId { get; set; } = "";
    [CsvColumn("tasted_at")] public DateTime TastedAt { get; set; }
    [CsvColumn("session")] public string Session { get; set; } = "";
    [CsvColumn("position")] public int? Position { get; set; }
    [CsvColumn("purpose")] public string Purpose { get; set; } = "";
    [CsvColumn("brewer")] public string Brewer { get; set; } = "";
    [CsvColumn("grinder")] public string Grinder { get; set; } = "";
    [CsvColumn("grind")] public string Grind { get; set; } = "";
    [CsvColumn("water")] public string Water { get; set; } = "";
    [CsvColumn("recipe")] public string Recipe { get; set; } = "";
    [CsvColumn("dose_g")] public double? Dose { get; set; }
    [CsvColumn("water_g")] public double? WaterGrams { get; set; }
    [CsvColumn("water_temp")] public string Temperature { get; set; } = "";
    [CsvColumn("brew_time")] public string BrewTime { get; set; } = "";
    [CsvColumn("score")] public double? Score { get; set; }
    [CsvColumn("aroma")] public double? Aroma { get; set; }
    [CsvColumn("acidity")] public double? Acidity { get; set; }
    [CsvColumn("sweetness")] public double? Sweetness { get; set; }
    [CsvColumn("body")] public double? Body { get; set; }
    [CsvColumn("clarity")] public double? Clarity { get; set; }
    [CsvColumn("notes")] public string Notes { get; set; } = "";
    [CsvColumn("remark")] public string Remark { get; set; } = "";
}
