using System.Globalization;
using System.Text.Json.Nodes;

namespace TastingKit.Reference;

/// <summary>
/// Every figure of a reference against the same figure of ours, each with the tolerance of its kind. A figure that the
/// reference has and ours lack is a difference.
/// </summary>
internal sealed class FigureComparison
{
    // Relative. Criteria and likelihoods are sums over rows; estimates and their errors follow the optimiser at half its digits.
    private const double Criterion = 1e-8;
    private const double FixedEffect = 1e-6;
    private const double Deviation = 1e-5;
    private const double Ordinal = 1e-5;

    // The reference differentiates numerically for its degrees of freedom.
    private const double DegreesOfFreedom = 1e-3;

    // Absolute.
    private const double AdjustedP = 1e-5;

    private readonly List<string> _differences = [];

    /// <summary>Where ours and the reference differ, in words.</summary>
    public IReadOnlyList<string> Differences => _differences;

    /// <summary>How many figures were compared, those that differ included.</summary>
    public int Compared { get; private set; }

    /// <summary>Compares the figures of a case with a file of reference figures.</summary>
    public static FigureComparison Of(JsonObject figures, string referencePath) =>
        Of(figures, JsonNode.Parse(File.ReadAllText(referencePath))!.AsObject());

    /// <summary>Compares the figures of a case with reference figures.</summary>
    public static FigureComparison Of(JsonObject figures, JsonObject reference)
    {
        var comparison = new FigureComparison();
        foreach (var expected in Rows(reference["models"]))
        {
            string id = Text(expected, "id");
            var actual = Rows(figures["models"]).FirstOrDefault(m => Text(m, "id") == id);
            if (actual is null || actual["error"] is not null)
            {
                comparison.Miss(id, actual is null ? "the model is missing" : $"error: {Text(actual, "error")}");
            }
            else if (expected["coefficients"] is not null)
            {
                comparison.OrdinalModel(id, actual, expected);
            }
            else
            {
                comparison.LinearModel(id, actual, expected);
            }
        }

        return comparison;
    }

    private void LinearModel(string id, JsonObject actual, JsonObject expected)
    {
        bool singular = expected["singular"]!.GetValue<bool>();
        Compared++;
        if (actual["singular"]?.GetValue<bool>() != singular)
        {
            _differences.Add($"{id} singular: expected {singular}");
        }

        Relative($"{id} reml_criterion", actual["reml_criterion"], expected["reml_criterion"], Criterion);
        Relative($"{id} loglik_reml", actual["loglik_reml"], expected["loglik_reml"], Criterion);
        FixedEffects(id, actual["fixed"], expected["fixed"], singular);
        Components(id, actual["random"], expected["random"]);
        Relative($"{id} residual sd", actual["residual"]?["sd"], expected["residual"]?["sd"], Deviation);
        if (expected["ml"] is JsonObject ml)
        {
            var ours = actual["ml"];
            Relative($"{id} ml deviance", ours?["deviance"], ml["deviance"], Criterion);
            Relative($"{id} ml loglik", ours?["loglik"], ml["loglik"], Criterion);
            FixedEffects($"{id} ml", ours?["fixed"], ml["fixed"], singular);
            Components($"{id} ml", ours?["random"], ml["random"]);
            Relative($"{id} ml residual sd", ours?["residual"]?["sd"], ml["residual"]?["sd"], Deviation);
        }

        ModesOf(id, actual, expected, Deviation);
        MarginalMeans(id, actual, expected, FixedEffect, singular);
    }

    private void OrdinalModel(string id, JsonObject actual, JsonObject expected)
    {
        foreach (var row in Rows(expected["coefficients"]))
        {
            string name = Text(row, "name");
            string part = Text(row, "part");
            var ours = Rows(actual["coefficients"]).FirstOrDefault(r => Text(r, "name") == name && Text(r, "part") == part);
            string what = $"{id} {part} {name}";
            Scaled($"{what} estimate", ours?["estimate"], row["estimate"], row["se"], Ordinal);
            Relative($"{what} se", ours?["se"], row["se"], Ordinal);
        }

        Relative($"{id} loglik", actual["loglik"], expected["loglik"], Criterion);
        foreach (var row in Rows(expected["random"]))
        {
            var ours = Rows(actual["random"]).FirstOrDefault(r => Text(r, "group") == Text(row, "group"));
            Deviations($"{id} sd of {Text(row, "group")}", ours?["sd"], row["sd"]);
        }

        ModesOf(id, actual, expected, Ordinal);
        MarginalMeans(id, actual, expected, Ordinal, false);
    }

    private void FixedEffects(string id, JsonNode? actual, JsonNode? expected, bool singular)
    {
        foreach (var row in Rows(expected))
        {
            string name = Text(row, "name");
            var ours = Rows(actual).FirstOrDefault(r => Text(r, "name") == name);
            Scaled($"{id} {name} estimate", ours?["estimate"], row["estimate"], row["se"], FixedEffect);
            Relative($"{id} {name} se", ours?["se"], row["se"], FixedEffect);
            if (row["df"] is not null)
            {
                Scaled($"{id} {name} t", ours?["t"], row["t"], JsonValue.Create(1.0), FixedEffect);
                Freedom($"{id} {name}", ours, row, singular);
                Absolute($"{id} {name} p", ours?["p"], row["p"], AdjustedP);
            }
        }
    }

    // The degrees of freedom of a singular fit follow a convention, and another one is as good.
    private void Freedom(string what, JsonNode? actual, JsonNode expected, bool singular)
    {
        if (!singular)
        {
            Relative($"{what} df", actual?["df"], expected["df"], DegreesOfFreedom);
        }
    }

    private void Components(string id, JsonNode? actual, JsonNode? expected)
    {
        foreach (var row in Rows(expected))
        {
            string[] terms = Strings(row["terms"]);
            string what = $"{id} {Text(row, "group")} ({string.Join(", ", terms)})";
            var ours = Rows(actual).FirstOrDefault(r => Text(r, "group") == Text(row, "group") && Strings(r["terms"]).SequenceEqual(terms));
            for (int i = 0; i < terms.Length; i++)
            {
                Deviations($"{what} sd of {terms[i]}", ours?["sd"]?[i], row["sd"]![i]);
                if (row["correlation"] is JsonArray correlations)
                {
                    for (int j = 0; j < i; j++)
                    {
                        Absolute($"{what} correlation of {terms[i]} and {terms[j]}", ours?["correlation"]?[i]?[j], correlations[i]![j], Deviation);
                    }
                }
            }
        }
    }

    private void ModesOf(string id, JsonObject actual, JsonObject expected, double tolerance)
    {
        foreach (var (group, table) in expected["conditional_modes"] as JsonObject ?? [])
        {
            foreach (var row in Rows(table?["first"]))
            {
                string level = Text(row, "level");
                var ours = Rows(actual["conditional_modes"]?[group]?["first"]).FirstOrDefault(r => Text(r, "level") == level);
                foreach (var (name, value) in row.Where(f => f.Key != "level"))
                {
                    // A mode is told by the size of its standard deviation, since it may itself be next to nothing.
                    string deviation = name.StartsWith("mode", StringComparison.Ordinal) ? "sd" + name["mode".Length..] : name;
                    Scaled($"{id} {group} {level} {name}", ours?[name], value, row[deviation], tolerance);
                }
            }
        }
    }

    private void MarginalMeans(string id, JsonObject actual, JsonObject expected, double tolerance, bool singular)
    {
        foreach (var table in Rows(expected["emmeans"]))
        {
            string factor = Text(table, "factor");
            var ours = Rows(actual["emmeans"]).FirstOrDefault(t => Text(t, "factor") == factor);
            foreach (var row in Rows(table["means"]))
            {
                string what = $"{id} mean of {factor} {Text(row, "level")}";
                var mean = Rows(ours?["means"]).FirstOrDefault(r => Text(r, "level") == Text(row, "level"));
                Scaled(what, mean?["mean"], row["mean"], row["se"], tolerance);
                Relative($"{what} se", mean?["se"], row["se"], tolerance);
                Freedom(what, mean, row, singular);
                if (!singular)
                {
                    Scaled($"{what} lower95", mean?["lower95"], row["lower95"], row["se"], DegreesOfFreedom);
                    Scaled($"{what} upper95", mean?["upper95"], row["upper95"], row["se"], DegreesOfFreedom);
                }
            }

            foreach (var row in Rows(table["pairs"]))
            {
                string what = $"{id} {Text(row, "contrast")}";
                var pair = Rows(ours?["pairs"]).FirstOrDefault(r => Text(r, "contrast") == Text(row, "contrast"));
                Scaled(what, pair?["estimate"], row["estimate"], row["se"], tolerance);
                Relative($"{what} se", pair?["se"], row["se"], tolerance);
                Freedom(what, pair, row, singular);
                if (!singular)
                {
                    Absolute($"{what} p_tukey", pair?["p_tukey"], row["p_tukey"], AdjustedP);
                    Absolute($"{what} p_holm", pair?["p_holm"], row["p_holm"], AdjustedP);
                }
            }
        }
    }

    private void Deviations(string what, JsonNode? actual, JsonNode? expected)
    {
        if (Number(expected) == 0.0)
        {
            Absolute(what, actual, expected, 0.0);
        }
        else
        {
            Relative(what, actual, expected, Deviation);
        }
    }

    private void Relative(string what, JsonNode? actual, JsonNode? expected, double tolerance) =>
        Check(what, actual, expected, tolerance * Math.Abs(Number(expected) ?? double.NaN));

    private void Absolute(string what, JsonNode? actual, JsonNode? expected, double tolerance) => Check(what, actual, expected, tolerance);

    private void Scaled(string what, JsonNode? actual, JsonNode? expected, JsonNode? scale, double tolerance) =>
        Check(what, actual, expected, tolerance * Math.Max(Math.Abs(Number(expected) ?? 0.0), Math.Abs(Number(scale) ?? 0.0)));

    private void Check(string what, JsonNode? actual, JsonNode? expected, double allowed)
    {
        if (Number(expected) is not { } wanted)
        {
            // The reference itself has no figure here.
            return;
        }

        Compared++;
        double? found = Number(actual);
        if (found is not { } value || !(Math.Abs(value - wanted) <= allowed || value == wanted))
        {
            string text = found?.ToString("G17", CultureInfo.InvariantCulture) ?? "nothing";
            _differences.Add(string.Create(CultureInfo.InvariantCulture, $"{what}: {text} instead of {wanted:G17}, {Math.Abs((found ?? double.NaN) - wanted):E1} apart where {allowed:E1} is allowed"));
        }
    }

    private void Miss(string id, string why)
    {
        Compared++;
        _differences.Add($"{id}: {why}");
    }

    private static double? Number(JsonNode? node) => node switch
    {
        JsonValue value when value.TryGetValue(out double number) => number,
        JsonValue value when value.TryGetValue(out int number) => number,
        JsonValue value when value.TryGetValue(out string? word) => word switch
        {
            "Infinity" => double.PositiveInfinity,
            "-Infinity" => double.NegativeInfinity,
            _ => null,
        },
        _ => null,
    };

    private static string Text(JsonNode node, string property) => node[property]?.ToString() ?? "";

    private static string[] Strings(JsonNode? node) => node is JsonArray array ? [.. array.Select(a => a?.ToString() ?? "")] : node is null ? [] : [node.ToString()];

    private static IEnumerable<JsonObject> Rows(JsonNode? node) => node is JsonArray array ? array.OfType<JsonObject>() : [];
}
