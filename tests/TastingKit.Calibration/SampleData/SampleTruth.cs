using System.Text;
using System.Text.Json;

namespace TastingKit.Calibration.SampleData;

/// <summary>Writes what is true of the sample year beside it, for people and tests to hold analyses against.</summary>
internal static class SampleTruth
{
    /// <summary>The standard brew that the expected scores in the file are of.</summary>
    public const string Brewer = "cone dripper";
    private const double RestDays = 20;
    private const int Digits = 4;

    public static string Write(SimulationTruth truth, IReadOnlyList<PlantedFault> faults)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteString("about", "What the sample year was simulated from. Points are points of the score, 1 to 9, before rounding. No analysis reads this file.");
            json.WriteNumber("seed", truth.Seed);
            WriteTaster(json, truth);
            WriteMethod(json, truth);
            WriteRest(json, truth);
            WriteCoffees(json, truth);
            WriteFaults(json, faults);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.ToArray()) + "\n";
    }

    private static void WriteTaster(Utf8JsonWriter json, SimulationTruth truth)
    {
        Number(json, "mean_score", truth.Settings.Taster.Mean);
        Number(json, "drift_points_a_year", truth.DriftPerYear);
        Number(json, "points_for_each_later_place_in_a_session", truth.Settings.Taster.PositionEffect);
        json.WriteStartObject("standard_deviations");
        foreach (var component in truth.VarianceComponents)
            Number(json, component.Name, component.StandardDeviation);
        json.WriteEndObject();
        json.WriteStartArray("changes");
        foreach (var change in truth.Settings.Schedule.Changes)
        {
            json.WriteStartObject();
            json.WriteString("changed_on", change.ChangedOn.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
            json.WriteString("what", change.What);
            Number(json, "points", change.Effect);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteMethod(Utf8JsonWriter json, SimulationTruth truth)
    {
        json.WriteStartObject("brewer_points_against_" + Brewer.Replace(' ', '_'));
        foreach (var brewer in truth.Settings.Method.Brewers.Where(brewer => brewer.Name != Brewer))
        {
            json.WriteStartObject(brewer.Name);
            Number(json, "over_all_coffees", truth.BrewerContrast(brewer.Name, Brewer));
            foreach (var process in truth.Processes)
                Number(json, process, truth.BrewerContrast(brewer.Name, Brewer, process));
            json.WriteEndObject();
        }

        json.WriteEndObject();
        json.WriteStartObject("roasters_recipe_points_against_house");
        Number(json, "over_all_coffees", truth.RoasterRecipeContrast());
        foreach (var process in truth.Processes)
            Number(json, process, truth.RoasterRecipeContrast(process));
        json.WriteEndObject();
    }

    private static void WriteRest(Utf8JsonWriter json, SimulationTruth truth)
    {
        json.WriteStartObject("peak_rest_days");
        foreach (var process in truth.Processes)
        {
            foreach (var roastLevel in new[] { "light", "medium", "dark" })
            {
                Number(json, $"{process}, {roastLevel}", truth.PeakRestDays(process, false, roastLevel));
                Number(json, $"anaerobic {process}, {roastLevel}", truth.PeakRestDays(process, true, roastLevel));
            }
        }

        json.WriteEndObject();
        Number(json, "rest_points_lost_on_the_day_of_roasting", truth.Settings.Rest.Depth);
    }

    private static void WriteCoffees(Utf8JsonWriter json, SimulationTruth truth)
    {
        json.WriteString("expected_scores_are_of", $"{Brewer}, house recipe, {RestDays} days of rest, first in its session, at mid-year");
        json.WriteStartArray("coffees");
        foreach (var coffee in truth.Coffees.OrderByDescending(coffee => truth.ExpectedScore(coffee.CoffeeId, Brewer, SimulatedMethod.House, RestDays)))
        {
            json.WriteStartObject();
            json.WriteString("coffee_id", coffee.CoffeeId);
            Number(json, "expected_score", truth.ExpectedScore(coffee.CoffeeId, Brewer, SimulatedMethod.House, RestDays));
            Number(json, "country", coffee.CountryEffect);
            Number(json, "process", coffee.ProcessEffect);
            Number(json, "fermentation", coffee.FermentationEffect);
            Number(json, "roaster", coffee.RoasterEffect);
            Number(json, "lot", coffee.LotEffect);
            json.WriteStartObject("bags");
            foreach (var bag in coffee.Bags)
            {
                json.WriteStartObject(bag.BagId);
                Number(json, "points", bag.BatchEffect);
                Number(json, "peak_rest_days", bag.PeakRestDays);
                json.WriteEndObject();
            }

            json.WriteEndObject();
            json.WriteStartObject("notes");
            foreach (var note in coffee.Notes)
                Number(json, note.Note, note.Probability);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteFaults(Utf8JsonWriter json, IReadOnlyList<PlantedFault> faults)
    {
        json.WriteStartArray("dirty_rows");
        foreach (var fault in faults)
        {
            json.WriteStartObject();
            json.WriteString("file", fault.File);
            json.WriteNumber("line", fault.Line);
            json.WriteString("column", fault.Column);
            json.WriteString("rule", fault.Rule);
            json.WriteString("severity", fault.Severity.ToString());
            json.WriteString("trait", fault.Trait);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string name, double value) => json.WriteNumber(name, Math.Round(value, Digits));
}
