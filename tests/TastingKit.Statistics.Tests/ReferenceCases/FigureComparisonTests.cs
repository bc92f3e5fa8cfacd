using System.Text.Json.Nodes;
using TastingKit.Reference;

namespace TastingKit.Statistics.Tests;

/// <summary>The comparison itself must notice every figure that is off, missing, or of a model that failed.</summary>
public sealed class FigureComparisonTests
{
    private static readonly string Root = Path.Combine(AppContext.BaseDirectory, "ReferenceCases");

    [Theory]
    [InlineData("sleepstudy")]
    [InlineData("penicillin")]
    public void A_reference_agrees_with_itself_and_with_no_perturbed_copy(string name)
    {
        var reference = Read(name);
        Assert.Empty(FigureComparison.Of(Read(name), reference).Differences);
        int perturbed = 0;
        foreach (string path in ComparedPaths(reference))
        {
            var copy = Read(name);
            Perturb(copy, path);
            Assert.True(FigureComparison.Of(copy, reference).Differences.Count > 0, $"a change of {path} went unnoticed");
            perturbed++;
        }

        Assert.InRange(perturbed, 100, 1000);
    }

    [Fact]
    public void A_missing_model_a_failed_model_and_a_missing_row_are_differences()
    {
        var reference = Read("dyestuff");
        Assert.Single(FigureComparison.Of(new JsonObject { ["models"] = new JsonArray() }, reference).Differences);

        var failed = new JsonObject { ["models"] = new JsonArray(new JsonObject { ["id"] = "batch", ["error"] = "no luck" }) };
        Assert.Contains("no luck", Assert.Single(FigureComparison.Of(failed, reference).Differences), StringComparison.Ordinal);

        var shortened = Read("dyestuff");
        shortened["models"]![0]!["fixed"]!.AsArray().Clear();
        Assert.NotEmpty(FigureComparison.Of(shortened, reference).Differences);
    }

    [Fact]
    public void A_variance_of_zero_must_be_exactly_zero()
    {
        var reference = Read("dyestuff2");
        var almost = Read("dyestuff2");
        almost["models"]![0]!["random"]![0]!["sd"]![0] = 1e-9;
        Assert.Contains("sd of (Intercept)", Assert.Single(FigureComparison.Of(almost, reference).Differences), StringComparison.Ordinal);
    }

    private static JsonObject Read(string name) =>
        JsonNode.Parse(File.ReadAllText(Path.Combine(Root, name, "reference.json")))!.AsObject();

    // The figures that a reproduction is asked for; the references hold others besides, such as information criteria.
    private static readonly string[] Asked =
    [
        "estimate", "se", "df", "t", "reml_criterion", "loglik_reml", "deviance", "loglik", "sd", "mean", "p_tukey", "p_holm", "lower95", "upper95",
    ];

    private static IEnumerable<string> ComparedPaths(JsonObject reference)
    {
        foreach (var model in reference["models"]!.AsArray())
        {
            foreach (var leaf in BlockLeaves(model!))
            {
                string path = leaf.GetPath();
                string name = path[(path.LastIndexOf('.') + 1)..].Split('[')[0];
                bool isMode = path.Contains(".first[", StringComparison.Ordinal);
                bool isIntervalOfPair = path.Contains(".pairs[", StringComparison.Ordinal) && name is "lower95" or "upper95";
                if (isMode || (Asked.Contains(name) && !isIntervalOfPair))
                {
                    yield return path;
                }
            }
        }
    }

    private static IEnumerable<JsonValue> BlockLeaves(JsonNode model) =>
        new[] { "fixed", "random", "residual", "reml_criterion", "loglik_reml", "ml", "conditional_modes", "emmeans" }
            .Select(block => model[block]).OfType<JsonNode>().SelectMany(Leaves);

    private static IEnumerable<JsonValue> Leaves(JsonNode node) => node switch
    {
        JsonObject members => members.Where(m => m.Value is not null).SelectMany(m => Leaves(m.Value!)),
        JsonArray items => items.Where(i => i is not null).SelectMany(i => Leaves(i!)),
        JsonValue value when value.TryGetValue(out double _) => [value],
        _ => [],
    };

    private static void Perturb(JsonObject root, string path)
    {
        foreach (var model in root["models"]!.AsArray())
        {
            foreach (var leaf in BlockLeaves(model!))
            {
                if (leaf.GetPath() == path)
                {
                    double value = leaf.GetValue<double>();
                    leaf.ReplaceWith(value + 0.01 * Math.Max(Math.Abs(value), 0.1));
                    return;
                }
            }
        }

        Assert.Fail($"no figure at {path}");
    }
}
