using Microsoft.Data.Analysis;

namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>
    /// The cups as a data frame: one row a cup in the log's order, its bag's and coffee's columns beside its own under the headers of the
    /// log's files, and <c>rest_days</c>, <c>frozen_days</c> and <c>ratio</c> computed.
    /// </summary>
    /// <remarks>
    /// Every column has its type whatever its cells hold: text is text (<c>007</c> stays so), every number is a 64-bit float, times keep
    /// their fractions, and what is missing is null and never 0 or an empty text. Brew time is in seconds, water temperature in degrees Celsius.
    /// Several countries or notes stand in one cell, parted by <c>; </c>. A column of the log's own whose header another column has is
    /// prefixed by <c>bag: </c> or <c>cup: </c>. Remarks are private and not in it.
    /// The frame is a view handed out; changing it changes no log. Mind its own rules on nulls: a group's mean counts them as 0, and a
    /// comparison with a null is true; filter them out first, or compute on <see cref="Tastings"/>.
    /// </remarks>
    public DataFrame ToDataFrame()
    {
        var frame = new DataFrame();
        Text("tasting_id", cup => cup.Id);
        Text("bag_id", cup => cup.Bag.Id);
        Text("coffee_id", cup => cup.Bag.Coffee.Id);
        Add(new DateTimeDataFrameColumn("tasted_at", Tastings.Select(cup => (DateTime?)cup.TastedAt)));
        Number("rest_days", cup => cup.RestDays);
        Number("frozen_days", cup => cup.FrozenDays);
        Text("taster", cup => cup.Taster);
        Text("session", cup => cup.Session);
        Number("position", cup => cup.Position);
        Text("purpose", cup => cup.Purpose == Purpose.DialIn ? "dial-in" : cup.Purpose.ToString().ToLowerInvariant());
        Flag("failed", cup => cup.Failed);
        Flag("test_entry", cup => cup.IsTestEntry);
        Text("brewer", cup => cup.Brewer);
        Text("filter", cup => cup.Filter);
        Text("grinder", cup => cup.Grinder);
        Text("grind", cup => cup.Grind);
        Text("water", cup => cup.Water);
        Text("recipe", cup => cup.Recipe);
        Text("recipe_from", cup => cup.RecipeFrom);
        Number("dose_g", cup => cup.DoseGrams);
        Number("water_g", cup => cup.WaterGrams);
        Number("yield_g", cup => cup.YieldGrams);
        Number("ratio", cup => cup.Ratio);
        Number("water_temp", cup => cup.WaterCelsius);
        Number("brew_time", cup => cup.BrewTime?.TotalSeconds);
        Number("tds_pct", cup => cup.TdsPercent);
        Text("cup_temp", cup => cup.CupTemperature);
        Text("blind_to", cup => cup.BlindTo.ToString().ToLowerInvariant());
        Number("score", cup => cup.Score);
        foreach (var attribute in Attributes)
            Number(attribute.Name, cup => cup.ValueOf(attribute));
        Text("notes", cup => Joined(cup.Notes));
        Text("guess_process", cup => cup.GuessedProcess);

        Text("roaster", cup => cup.Bag.Coffee.Roaster);
        Text("coffee", cup => cup.Bag.Coffee.Name);
        Text("country", cup => Joined(cup.Bag.Coffee.Countries));
        Text("region", cup => cup.Bag.Coffee.Region);
        Text("producer", cup => cup.Bag.Coffee.Producer);
        Text("lot", cup => cup.Bag.Coffee.Lot);
        Text("harvest", cup => cup.Bag.Coffee.Harvest);
        Text("variety", cup => cup.Bag.Coffee.Variety);
        Text("process", cup => cup.Bag.Coffee.Process);
        Text("fermentation", cup => cup.Bag.Coffee.Fermentation);
        Text("added", cup => cup.Bag.Coffee.Added);
        Flag("decaf", cup => cup.Bag.Coffee.Decaf);
        Text("roast_level", cup => cup.Bag.RoastLevel);
        Text("roast_for", cup => cup.Bag.RoastFor);
        Day("roast_date", cup => cup.Bag.RoastDate);
        Day("opened_on", cup => cup.Bag.OpenedOn);
        Number("net_weight_g", cup => cup.Bag.NetWeightGrams);
        Number("price", cup => (double?)cup.Bag.Price);
        Text("currency", cup => cup.Bag.Currency);
        Text("obtained", cup => cup.Bag.Obtained);
        foreach (var header in Tastings.SelectMany(cup => cup.OtherColumns.Keys).Distinct(StringComparer.Ordinal).ToList())
            Text(Free(header, "cup: "), cup => cup.OtherColumns.GetValueOrDefault(header));
        foreach (var header in Bags.SelectMany(bag => bag.OtherColumns.Keys).Distinct(StringComparer.Ordinal).ToList())
            Text(Free(header, "bag: "), cup => cup.Bag.OtherColumns.GetValueOrDefault(header));
        return frame;

        void Add(DataFrameColumn column) => frame.Columns.Add(column);
        void Text(string name, Func<Tasting, string?> value) => Add(new StringDataFrameColumn(name, Tastings.Select(value)));
        void Number(string name, Func<Tasting, double?> value) => Add(new DoubleDataFrameColumn(name, Tastings.Select(value)));
        void Flag(string name, Func<Tasting, bool?> value) => Add(new BooleanDataFrameColumn(name, Tastings.Select(value)));
        void Day(string name, Func<Tasting, DateOnly?> value) =>
            Add(new DateTimeDataFrameColumn(name, Tastings.Select(cup => value(cup)?.ToDateTime(TimeOnly.MinValue))));

        string Free(string header, string prefix)
        {
            while (frame.Columns.IndexOf(header) >= 0)
                header = prefix + header;
            return header;
        }
    }

    private static string? Joined(IReadOnlyList<string> parts) => parts.Count == 0 ? null : string.Join("; ", parts);
}
