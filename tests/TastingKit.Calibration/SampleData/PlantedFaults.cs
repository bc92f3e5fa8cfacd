namespace TastingKit.Calibration.SampleData;

/// <summary>
/// Puts rows into the sample log that people do write, and that are wrong. Each is a copy of a sound row with an identifier of its
/// own and one fault; the sound rows stay as they are.
/// </summary>
internal static class PlantedFaults
{
    private const string Bags = "bags.csv";
    private const string Tastings = "tastings.csv";

    public static IReadOnlyList<PlantedFault> Apply(SheetFile bags, SheetFile tastings)
    {
        Plant[] plants =
        [
            Bag(bags, "roast_date", "2025-02-30", "date-impossible", "a roast date that no calendar has"),
            Cup(tastings, 60, "bag_id", "", "required-missing", Severity.Rejected, "no bag"),
            Cup(tastings, 115, "tasted_at", "03/04/2025", "date-not-iso", Severity.Rejected, "a date whose day and month can't be told apart"),
            Cup(tastings, 170, "bag_id", "b0l9", "unknown-bag", Severity.Rejected, "a slip of the finger in the bag's identifier"),
            Cup(tastings, 225, "tasting_id", tastings.Rows[12][tastings.Column("tasting_id")], "duplicate-id", Severity.Rejected, "the identifier of another cup"),
            Cup(tastings, 280, "score", "75", "score-off-scale", Severity.Doubtful, "a score without its decimal point"),
            Cup(tastings, 335, "score", "seven and a bit", "not-a-number", Severity.Doubtful, "a score in words"),
            Cup(tastings, 390, "water_temp", "294C", "temperature-over-boiling", Severity.Doubtful, "water far over boiling"),
            Unfilled(tastings, 440),
        ];
        foreach (var plant in plants)
            plant.Sheet.Rows.Insert(plant.Sheet.Rows.IndexOf(plant.Copied) + 1, plant.Row);
        return
        [
            .. plants.Select(plant => new PlantedFault(plant.File, plant.Sheet.LineOf(plant.Row), plant.Column, plant.Rule, plant.Severity, plant.Trait)),
        ];
    }

    private static Plant Bag(SheetFile bags, string column, string value, string rule, string trait)
    {
        var copied = bags.Rows[^1];
        string[] row = [.. copied];
        row[bags.Column("bag_id")] = "b900";
        row[bags.Column("coffee_id")] = "c900";
        row[bags.Column(column)] = value;
        return new Plant(Bags, bags, copied, row, column, rule, Severity.Doubtful, trait);
    }

    private static Plant Cup(SheetFile tastings, int at, string column, string value, string rule, Severity severity, string trait)
    {
        var copied = tastings.Rows[at];
        string[] row = [.. copied];
        row[tastings.Column("tasting_id")] = $"t9{at:D3}";
        row[tastings.Column(column)] = value;
        return new Plant(Tastings, tastings, copied, row, column, rule, severity, trait);
    }

    private static Plant Unfilled(SheetFile tastings, int at)
    {
        var plant = Cup(tastings, at, "score", "0", "never-filled-in", Severity.Rejected, "a form saved before anything was scored: noughts throughout");
        foreach (var attribute in TastingAttribute.Defaults)
            plant.Row[tastings.Column(attribute.Name)] = "0";
        return plant with { Column = "" };
    }

    private sealed record Plant(
        string File, SheetFile Sheet, string[] Copied, string[] Row, string Column, string Rule, Severity Severity, string Trait);
}
