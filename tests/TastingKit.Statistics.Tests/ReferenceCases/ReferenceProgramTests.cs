using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using TastingKit.Reference;

namespace TastingKit.Statistics.Tests;

/// <summary>What the format of a case allows and the stored cases don't use, each against the same model said another way.</summary>
public sealed class ReferenceProgramTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("tastingkit-reference-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Compressed_data_give_the_figures_of_plain_data()
    {
        const string model = """{"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": [{"group": ["coffee"], "intercept": true, "slopes": []}]}""";
        WriteData();
        var plain = Fit(model);
        using (var file = File.Create(Path.Combine(_folder, "data.csv.gz")))
        using (var stream = new GZipStream(file, CompressionLevel.Optimal))
        {
            stream.Write(File.ReadAllBytes(Path.Combine(_folder, "data.csv")));
        }

        var compressed = Fit(model, "data.csv.gz");
        AssertSame(plain["fixed"], compressed["fixed"]);
    }

    [Fact]
    public void A_condition_keeps_its_rows_only()
    {
        WriteData();
        var kept = Fit("""{"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": [{"group": ["coffee"], "intercept": true, "slopes": []}], "where": {"use": 1}}""");
        string[] lines = File.ReadAllLines(Path.Combine(_folder, "data.csv"));
        File.WriteAllLines(Path.Combine(_folder, "data.csv"), lines.Where((line, i) => i == 0 || line.Split(',')[6] == "1"));
        var filtered = Fit("""{"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": [{"group": ["coffee"], "intercept": true, "slopes": []}]}""");
        AssertSame(filtered["fixed"], kept["fixed"]);
        AssertSame(filtered["reml_criterion"], kept["reml_criterion"]);
    }

    [Fact]
    public void Squares_interactions_and_marginal_means_have_the_names_of_the_reference()
    {
        WriteData();
        var fit = Fit("""
            {"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"], ["process"], ["day"], ["day^2"], ["process", "brewer"]],
             "random": [{"group": ["coffee"], "intercept": true, "slopes": ["day"]}], "marginalMeans": ["brewer", "brewer:process"]}
            """);
        Assert.Equal(
            ["(Intercept)", "brewerflat-bed", "processwashed", "day", "I(day^2)", "brewerflat-bed:processwashed"],
            fit["fixed"]!.AsArray().Select(r => (string)r!["name"]!));
        Assert.Equal(["(Intercept)", "day"], fit["random"]![0]!["terms"]!.AsArray().Select(t => (string)t!));
        var means = fit["emmeans"]!.AsArray();
        Assert.Equal(["cone", "flat-bed"], means[0]!["means"]!.AsArray().Select(m => (string)m!["level"]!));
        Assert.Equal("cone - (flat-bed)", (string)means[0]!["pairs"]![0]!["contrast"]!);
        Assert.Equal(["cone:natural", "flat-bed:natural", "cone:washed", "flat-bed:washed"], means[1]!["means"]!.AsArray().Select(m => (string)m!["level"]!));

        // The mean stands at the square of the mean day: cone, processes averaged.
        double[] day = [.. File.ReadAllLines(Path.Combine(_folder, "data.csv")).Skip(1).Select(l => double.Parse(l.Split(',')[4], CultureInfo.InvariantCulture))];
        double at = day.Average();
        double[] b = [.. fit["fixed"]!.AsArray().Select(r => (double)r!["estimate"]!)];
        Assert.Equal(b[0] + 0.5 * b[2] + at * b[3] + at * at * b[4], (double)means[0]!["means"]![0]!["mean"]!, 1e-9);
    }

    [Fact]
    public void A_combined_group_is_the_factor_of_its_combinations()
    {
        WriteData();
        var fit = Fit("""{"id": "a", "kind": "linear", "response": "score", "fixed": [], "random": [{"group": ["coffee", "brewer"], "intercept": true, "slopes": []}]}""");
        var pasted = Fit("""{"id": "a", "kind": "linear", "response": "score", "fixed": [], "random": [{"group": ["cell"], "intercept": true, "slopes": []}]}""");
        Assert.Equal("coffee:brewer", (string)fit["random"]![0]!["group"]!);
        AssertSame(pasted["reml_criterion"], fit["reml_criterion"]);
        AssertSame(pasted["conditional_modes"]!["cell"], fit["conditional_modes"]!["coffee:brewer"]);
    }

    [Fact]
    public void Slopes_of_a_factor_without_intercept_have_one_effect_a_level()
    {
        WriteData();
        var fit = Fit("""{"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": [{"group": ["coffee"], "intercept": false, "slopes": ["brewer"]}]}""");
        var beside = Fit("""{"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": [{"group": ["coffee"], "intercept": true, "slopes": ["brewer"]}]}""");
        Assert.Equal(["brewercone", "brewerflat-bed"], fit["random"]![0]!["terms"]!.AsArray().Select(t => (string)t!));
        Assert.Equal(["(Intercept)", "brewerflat-bed"], beside["random"]![0]!["terms"]!.AsArray().Select(t => (string)t!));

        // Both say: any covariance of the two cell effects.
        Assert.Equal((double)fit["reml_criterion"]!, (double)beside["reml_criterion"]!, 1e-6);
        Assert.True(fit["conditional_modes"]!["coffee"]!["first"]![0]!.AsObject().ContainsKey("mode.brewerflat-bed"));
    }

    [Fact]
    public void Leaving_the_intercept_out_gives_a_coefficient_a_level()
    {
        WriteData();
        var fit = Fit("""{"id": "a", "kind": "linear", "response": "score", "intercept": false, "fixed": [["brewer"]], "random": [{"group": ["coffee"], "intercept": true, "slopes": []}], "weights": "n"}""");
        Assert.Equal(["brewercone", "brewerflat-bed"], fit["fixed"]!.AsArray().Select(r => (string)r!["name"]!));
    }

    [Fact]
    public void Ordinal_parts_and_weights_are_read()
    {
        WriteData();
        var fit = Fit("""
            {"id": "a", "kind": "ordinal", "response": "rating", "fixed": [["day"]], "random": [{"group": ["coffee"], "intercept": true, "slopes": []}],
             "link": "probit", "scale": ["brewer"], "nominal": ["process"], "quadrature": 5, "weights": "n"}
            """);
        Assert.Equal(
            ["1|2.(Intercept)", "2|3.(Intercept)", "1|2.processwashed", "2|3.processwashed", "day", "brewerflat-bed"],
            fit["coefficients"]!.AsArray().Select(r => (string)r!["name"]!));
        Assert.Equal(
            ["threshold", "threshold", "threshold", "threshold", "location", "log-scale"],
            fit["coefficients"]!.AsArray().Select(r => (string)r!["part"]!));
        Assert.True((double)fit["random"]![0]!["sd"]! >= 0.0);
    }

    [Fact]
    public void A_model_that_fails_says_why_and_leaves_the_others_alone()
    {
        WriteData();
        var models = FitAll("""
            {"id": "unknown column", "kind": "linear", "response": "score", "fixed": [["roaster"]], "random": []},
            {"id": "unknown kind", "kind": "cubic", "response": "score", "fixed": [], "random": []},
            {"id": "text as number", "kind": "linear", "response": "brewer", "fixed": [], "random": []},
            {"id": "one level", "kind": "linear", "response": "score", "fixed": [], "random": [{"group": ["use"], "intercept": true, "slopes": []}], "where": {"use": 1}},
            {"id": "no row", "kind": "linear", "response": "score", "fixed": [], "random": [], "where": {"use": 7}},
            {"id": "link", "kind": "ordinal", "response": "rating", "fixed": [], "random": [], "link": "cauchit"},
            {"id": "fine", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": []}
            """);
        Assert.Equal(7, models.Count);
        Assert.All(models.Take(6), m => Assert.NotEmpty((string)m!["error"]!));
        Assert.Contains("roaster", (string)models[0]!["error"]!, StringComparison.Ordinal);
        Assert.Contains("cauchit", (string)models[5]!["error"]!, StringComparison.Ordinal);
        Assert.Null(models[6]!["error"]);
        Assert.Equal(2, models[6]!["fixed"]!.AsArray().Count);
    }

    [Fact]
    public void Rows_without_a_needed_value_are_left_out_and_quotes_undone()
    {
        File.WriteAllText(Path.Combine(_folder, "data.csv"), "score,brewer\n1,\"a, b\"\n2,\"say \"\"c\"\"\"\nNA,\"a, b\"\n,\"a, b\"\n4,\"a, b\"\n7,\"say \"\"c\"\"\"\n");
        File.WriteAllText(Path.Combine(_folder, "model.json"), """
            { "data": "data.csv", "columns": { "score": "number", "brewer": "factor" },
              "models": [ {"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"]], "random": []} ] }
            """);
        var fit = ReferenceCase.Read(_folder).Fit()["models"]![0]!;
        Assert.Equal("brewersay \"c\"", (string)fit["fixed"]![1]!["name"]!);
        Assert.Equal(2.5, (double)fit["fixed"]![0]!["estimate"]!, 1e-12);
        Assert.Equal(2.0, (double)fit["fixed"]![1]!["estimate"]!, 1e-12);
    }

    [Fact]
    public void Steps_without_a_stated_order_go_by_number()
    {
        File.WriteAllText(Path.Combine(_folder, "data.csv"), "rating\n" + string.Join('\n', Enumerable.Range(0, 33).Select(i => 8 + i % 3)) + "\n");
        File.WriteAllText(Path.Combine(_folder, "model.json"), """
            { "data": "data.csv", "ordered": ["rating"], "columns": { "rating": "factor" },
              "models": [ {"id": "a", "kind": "ordinal", "response": "rating", "fixed": [], "random": []} ] }
            """);
        var fit = ReferenceCase.Read(_folder).Fit()["models"]![0]!;
        Assert.Equal(["8|9", "9|10"], fit["coefficients"]!.AsArray().Select(r => (string)r!["name"]!));
        Assert.Equal(-Math.Log(2.0), (double)fit["coefficients"]![0]!["estimate"]!, 1e-9);
    }

    [Fact]
    public void A_mean_that_the_data_cannot_give_leaves_the_other_figures_alone()
    {
        var rows = Enumerable.Range(0, 24).Select(i => i % 3).Select((cell, i) => FormattableString.Invariant($"{5 + cell + 0.1 * (i % 5)},{(cell == 0 ? "cone" : "flat-bed")},{(cell == 2 ? "washed" : "natural")}"));
        File.WriteAllText(Path.Combine(_folder, "data.csv"), "score,brewer,process\n" + string.Join('\n', rows) + "\n");
        File.WriteAllText(Path.Combine(_folder, "model.json"), """
            { "data": "data.csv", "columns": { "score": "number", "brewer": "factor", "process": "factor" },
              "models": [ {"id": "a", "kind": "linear", "response": "score", "fixed": [["brewer"], ["process"], ["brewer", "process"]], "random": [], "marginalMeans": ["brewer"]} ] }
            """);
        var fit = ReferenceCase.Read(_folder).Fit()["models"]![0]!;
        Assert.Null(fit["error"]);
        Assert.Equal(3, fit["fixed"]!.AsArray().Count);
        Assert.NotEmpty((string)fit["emmeans"]![0]!["error"]!);
    }

    [Fact]
    public void Numbers_have_seventeen_digits_and_what_is_undefined_is_null()
    {
        var figures = new JsonObject { ["a"] = 0.1, ["b"] = double.PositiveInfinity, ["c"] = double.NaN, ["d"] = 3, ["e"] = "x|y" };
        string json = FigureWriter.ToJson(figures);
        Assert.Contains("0.10000000000000001", json, StringComparison.Ordinal);
        Assert.Contains("\"Infinity\"", json, StringComparison.Ordinal);
        Assert.Contains("\"c\": null", json, StringComparison.Ordinal);
        Assert.Contains("\"x|y\"", json, StringComparison.Ordinal);
    }

    private JsonNode Fit(string model, string data = "data.csv") => FitAll(model, data)[0]!;

    private JsonArray FitAll(string models, string data = "data.csv")
    {
        File.WriteAllText(Path.Combine(_folder, "model.json"), $$"""
            { "data": "{{data}}", "ordered": ["rating"],
              "columns": { "score": "number", "rating": ["1", "2", "3"], "brewer": ["cone", "flat-bed"], "process": "factor", "day": "number",
                           "coffee": "factor", "use": "factor", "n": "number", "cell": "factor" },
              "models": [ {{models}} ] }
            """);
        var result = ReferenceCase.Read(_folder).Fit()["models"]!.AsArray();
        if (result.Count == 1)
        {
            Assert.Null((string?)result[0]!["error"]);
        }

        return result;
    }

    private void WriteData()
    {
        var random = new RandomStream(5);
        var text = new StringBuilder("score,rating,brewer,process,day,coffee,use,n,cell\n");
        double[,] effects = new double[12, 2];
        for (int c = 0; c < 12; c++)
        {
            effects[c, 0] = random.NextNormal();
            effects[c, 1] = effects[c, 0] + 0.7 * random.NextNormal();
        }

        for (int i = 0; i < 240; i++)
        {
            int coffee = i % 12;
            int brewer = random.NextInt32(2);
            int process = coffee % 2;
            int day = 3 + random.NextInt32(30);
            double score = 5.0 + 0.3 * brewer + 0.2 * process + 0.1 * day - 0.003 * day * day + effects[coffee, brewer] + 0.8 * random.NextNormal();
            int rating = score < 5.5 ? 1 : score < 6.5 ? 2 : 3;
            string brewerName = brewer == 0 ? "cone" : "flat-bed";
            text.Append(CultureInfo.InvariantCulture, $"{score},{rating},{brewerName},{(process == 0 ? "natural" : "washed")},{day},c{coffee:00},{random.NextInt32(2)},{1 + random.NextInt32(3)},c{coffee:00}:{brewerName}\n");
        }

        File.WriteAllText(Path.Combine(_folder, "data.csv"), text.ToString());
    }

    private static void AssertSame(JsonNode? expected, JsonNode? actual) => Assert.Equal(expected!.ToJsonString(), actual!.ToJsonString());
}
