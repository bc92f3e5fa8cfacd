using System.Text.Json;
using TastingKit.Reference;

namespace TastingKit.Statistics.Tests;

public sealed class OrdinalMixedModelTests
{
    private static readonly string Wine = Path.Combine(AppContext.BaseDirectory, "ReferenceCases", "wine");

    [Theory]
    [InlineData("clmm-judge-laplace", OrdinalLink.Logit)]
    [InlineData("clmm-judge-probit", OrdinalLink.Probit)]
    public void Forty_quadrature_nodes_give_the_nearly_exact_reference(string id, OrdinalLink link)
    {
        var models = JsonDocument.Parse(File.ReadAllText(Path.Combine(Wine, "reference.json"))).RootElement.GetProperty("models");
        var exact = models.EnumerateArray().Single(m => m.GetProperty("id").GetString() == id).GetProperty("near_exact");
        var fit = OrdinalMixedModel.Fit(WineDesign().WithRandomIntercept(WineFactor("judge")), new OrdinalMixedModelOptions { Link = link, QuadraturePoints = 40 });
        Assert.Equal(exact.GetProperty("loglik").GetDouble(), fit.LogLikelihood, 1e-8);
        var rows = exact.GetProperty("estimates").EnumerateArray().ToArray();
        Assert.Equal(7, rows.Length);
        foreach (var row in rows[..6])
        {
            var coefficient = fit.Coefficients.Single(c => c.Name == row.GetProperty("name").GetString());
            Assert.Equal(row.Number("estimate"), coefficient.Estimate, 1e-5);
            Assert.Equal(row.Number("se"), coefficient.StandardError, 1e-5 * row.Number("se"));
        }

        Assert.Equal(rows[6].Number("estimate"), fit.VarianceComponents[0].StandardDeviations[0], 1e-5);
        Assert.Equal(exact.Number("se_of_log_sd"), fit.StandardErrorOfLogDeviation(0)!.Value, 1e-5);
    }

    [Fact]
    public void Parameters_are_recovered_from_simulated_data()
    {
        var s = OrdinalSimulation.Create(21, 4000, 200, 7);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate)
            .WithRandomIntercept(s.Group).WithRandomIntercept(s.Crossed));
        Assert.True(fit.Convergence.HasConverged);
        Assert.Empty(fit.Cautions);
        AssertWithin(0.8, fit, "factorb");
        AssertWithin(-0.5, fit, "factorc");
        AssertWithin(0.6, fit, "covariate");
        Assert.InRange(fit.VarianceComponents[0].StandardDeviations[0], 0.8, 1.2);
        Assert.InRange(fit.VarianceComponents[1].StandardDeviations[0], 0.25, 0.8);
        Assert.Equal(200, fit.ConditionalModes("group").Count);
    }

    [Fact]
    public void Row_order_and_names_of_levels_do_not_matter()
    {
        var s = OrdinalSimulation.Create(22, 300, 20, 5);
        int n = s.Response.Count;
        int[] order = [.. Enumerable.Range(0, n)];
        new RandomStream(1).Shuffle(order.AsSpan());
        CategoricalColumn Permuted(CategoricalColumn c, string prefix) =>
            CategoricalColumn.From(c.Name, [.. order.Select(i => prefix + c.Levels[c.Codes[i]])], [.. c.Levels.Select(l => prefix + l)]);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithRandomIntercept(s.Group).WithRandomIntercept(s.Crossed));
        var again = OrdinalMixedModel.Fit(OrdinalDesign.For(Permuted(s.Response, "")).WithFixed(Permuted(s.Factor, "x")).WithRandomIntercept(Permuted(s.Group, "y")).WithRandomIntercept(Permuted(s.Crossed, "z")));
        Assert.Equal(fit.LogLikelihood, again.LogLikelihood, 1e-9);
        for (int i = 0; i < fit.Coefficients.Count; i++)
        {
            Assert.Equal(fit.Coefficients[i].Estimate, again.Coefficients[i].Estimate, 1e-7);
            Assert.Equal(fit.Coefficients[i].StandardError, again.Coefficients[i].StandardError, 1e-6);
        }
    }

    [Fact]
    public void Reversing_the_categories_reverses_the_effects()
    {
        var s = OrdinalSimulation.Create(23, 300, 20, 5);
        var reversed = CategoricalColumn.From("score", [.. Enumerable.Range(0, s.Response.Count).Select(i => s.Response.Levels[s.Response.Codes[i]])], [.. s.Response.Levels.Reverse()]);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Covariate).WithRandomIntercept(s.Group));
        var other = OrdinalMixedModel.Fit(OrdinalDesign.For(reversed).WithFixed(s.Covariate).WithRandomIntercept(s.Group));
        Assert.Equal(fit.LogLikelihood, other.LogLikelihood, 1e-9);
        Assert.Equal(fit.FixedEffects[0].Estimate, -other.FixedEffects[0].Estimate, 1e-7);
        Assert.Equal(fit.Coefficients[0].Estimate, -other.Coefficients[3].Estimate, 1e-7);
    }

    [Fact]
    public void Another_unit_of_a_covariate_only_rescales_its_coefficient()
    {
        var s = OrdinalSimulation.Create(24, 300, 20, 4);
        var scaled = new NumericColumn("covariate", s.Covariate.Values.ToArray().Select(x => 1000.0 * x).ToArray());
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Covariate).WithRandomIntercept(s.Group).WithRandomSlope(s.Group, s.Covariate));
        var other = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(scaled).WithRandomIntercept(s.Group).WithRandomSlope(s.Group, scaled));
        Assert.Equal(fit.LogLikelihood, other.LogLikelihood, 1e-7);
        Assert.Equal(fit.FixedEffects[0].Estimate, 1000.0 * other.FixedEffects[0].Estimate, 1e-5);
    }

    [Fact]
    public void Case_weights_are_repeated_rows()
    {
        var s = OrdinalSimulation.Create(25, 150, 12, 4);
        int[] rows = [.. Enumerable.Range(0, 150).SelectMany(i => Enumerable.Repeat(i, (int)s.Weights[i]))];
        CategoricalColumn Repeated(CategoricalColumn c) => CategoricalColumn.From(c.Name, [.. rows.Select(i => c.Levels[c.Codes[i]])], c.Levels);
        foreach (int points in new[] { 1, 5 })
        {
            var options = new OrdinalMixedModelOptions { QuadraturePoints = points };
            var weighted = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithWeights(s.Weights).WithRandomIntercept(s.Group), options);
            var repeated = OrdinalMixedModel.Fit(OrdinalDesign.For(Repeated(s.Response)).WithFixed(Repeated(s.Factor)).WithRandomIntercept(Repeated(s.Group)), options);
            Assert.Equal(repeated.LogLikelihood, weighted.LogLikelihood, 1e-8);
            Assert.Equal(repeated.FixedEffects[1].StandardError, weighted.FixedEffects[1].StandardError, 1e-7);
        }
    }

    [Fact]
    public void Structured_thresholds_are_nested_in_flexible_ones()
    {
        var s = OrdinalSimulation.Create(26, 600, 20, 6);
        OrdinalMixedModelFit Fit(ThresholdStructure structure) =>
            OrdinalMixedModel.Fit(
                OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate).WithRandomIntercept(s.Group).WithRandomIntercept(s.Crossed),
                new OrdinalMixedModelOptions { Thresholds = structure });
        var flexible = Fit(ThresholdStructure.Flexible);
        var symmetric = Fit(ThresholdStructure.Symmetric);
        var equidistant = Fit(ThresholdStructure.Equidistant);
        Assert.True(flexible.LogLikelihood >= symmetric.LogLikelihood);
        Assert.True(symmetric.LogLikelihood >= equidistant.LogLikelihood);
        Assert.Equal(["threshold.1", "spacing"], equidistant.Coefficients.Take(2).Select(c => c.Name));
        Assert.Equal(["central", "spacing.1", "spacing.2"], symmetric.Coefficients.Take(3).Select(c => c.Name));

        // The simulation's own steps are all of 0.9.
        Assert.Equal(0.9, equidistant.Coefficients[1].Estimate, 0.15);
    }

    [Fact]
    public void Nominal_effects_shift_thresholds_one_by_one()
    {
        // With one factor alone, freely shifted thresholds reproduce each level's shares exactly.
        var s = OrdinalSimulation.Create(27, 500, 20, 4);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithNominal(s.Period));
        double[] alpha = [.. fit.Coefficients.Select(c => c.Estimate)];
        Assert.Equal("1|2.(Intercept)", fit.Coefficients[0].Name);
        Assert.Equal("3|4.periodlate", fit.Coefficients[5].Name);
        for (int j = 0; j < 3; j++)
        {
            int late = 0;
            int lateBelow = 0;
            for (int i = 0; i < 500; i++)
            {
                bool isLate = s.Period.Codes[i] == 1;
                late += isLate ? 1 : 0;
                lateBelow += isLate && s.Response.Codes[i] <= j ? 1 : 0;
            }

            Assert.Equal((double)lateBelow / late, 1.0 / (1.0 + Math.Exp(-alpha[j] - alpha[3 + j])), 1e-8);
        }
    }

    [Fact]
    public void A_location_term_that_is_nominal_as_well_is_dropped_with_a_caution()
    {
        var s = OrdinalSimulation.Create(28, 300, 20, 4);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Period).WithNominal(s.Period));
        Assert.Empty(fit.FixedEffects);
        Assert.Contains("periodlate", Assert.Single(fit.Cautions), StringComparison.Ordinal);
    }

    [Fact]
    public void A_scale_effect_is_recovered()
    {
        var random = new RandomStream(29);
        const int n = 4000;
        var response = new string[n];
        var period = new string[n];
        for (int i = 0; i < n; i++)
        {
            bool late = i % 2 == 1;
            period[i] = late ? "late" : "early";
            double latent = random.NextNormal() * (late ? 1.6 : 1.0);
            response[i] = FormattableString.Invariant($"{Math.Clamp((int)Math.Floor(latent / 0.7) + 4, 1, 7)}");
        }

        var fit = OrdinalMixedModel.Fit(
            OrdinalDesign.For(CategoricalColumn.From("score", response)).WithScale(CategoricalColumn.From("period", period)),
            new OrdinalMixedModelOptions { Link = OrdinalLink.Probit });
        var scale = fit.Coefficients.Single(c => c.Part == OrdinalPart.LogScale);
        Assert.InRange((scale.Estimate - Math.Log(1.6)) / scale.StandardError, -3.0, 3.0);
    }

    [Fact]
    public void A_group_that_does_not_vary_has_exactly_no_variance()
    {
        // Every group holds the same responses.
        string[] response = [.. Enumerable.Range(0, 120).Select(i => "123"[i % 3].ToString())];
        var group = CategoricalColumn.From("group", [.. Enumerable.Range(0, 120).Select(i => FormattableString.Invariant($"g{i / 6:00}"))]);
        foreach (int points in new[] { 1, 8 })
        {
            var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(CategoricalColumn.From("score", response)).WithRandomIntercept(group), new OrdinalMixedModelOptions { QuadraturePoints = points });
            Assert.True(fit.IsSingular);
            Assert.Equal(0.0, fit.VarianceComponents[0].StandardDeviations[0]);
            Assert.Null(fit.StandardErrorOfLogDeviation(0));
            Assert.Contains("estimated as zero", Assert.Single(fit.Cautions), StringComparison.Ordinal);
            Assert.All(fit.ConditionalModes("group"), m => Assert.Equal(0.0, m.Mode));
            Assert.Equal(-120.0 * Math.Log(3.0), fit.LogLikelihood, 1e-9);
        }
    }

    // Small, unbalanced logs; a fifth of them have a variance of zero, and number 118 once sent the search astray.
    [Fact]
    public void The_search_ends_at_a_maximum_on_small_designs_of_every_kind()
    {
        int singular = 0;
        for (ulong seed = 80; seed < 140; seed++)
        {
            var random = new RandomStream(seed + 1000);
            var link = seed % 2 == 0 ? OrdinalLink.Logit : OrdinalLink.Probit;
            var s = OrdinalSimulation.Create(seed, 40 + random.NextInt32(200), 4 + random.NextInt32(16), 2 + random.NextInt32(8), link);
            var design = OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate).WithRandomIntercept(s.Group);
            design = (seed % 6) switch
            {
                2 => design.WithRandomIntercept(s.Crossed),
                4 => design.WithRandomSlope(s.Group, s.Covariate),
                5 => s.Response.Levels.Count > 2 ? design.WithScale(s.Period).WithWeights(s.Weights) : design,
                _ => design,
            };
            var fit = OrdinalMixedModel.Fit(design, new OrdinalMixedModelOptions { Link = link, QuadraturePoints = seed % 6 == 3 ? 9 : 1 });
            Assert.True(fit.Convergence.HasConverged, $"{seed}: {fit.Convergence}");
            Assert.All(fit.Coefficients, c => Assert.InRange(c.StandardError, 0.0, 1e3));
            Assert.True(fit.LogLikelihood >= OrdinalMixedModel.Fit(WithoutEffects(s, seed), new OrdinalMixedModelOptions { Link = link }).LogLikelihood - 1e-9);
            singular += fit.IsSingular ? 1 : 0;
        }

        Assert.InRange(singular, 1, 30);
    }

    [Fact]
    public void Contrasts_of_a_factor_are_differences_of_its_coefficients()
    {
        var s = OrdinalSimulation.Create(30, 500, 20, 5);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate).WithRandomIntercept(s.Group));
        var contrasts = fit.Contrasts("factor", Adjustment.Holm);
        Assert.Equal(["a - b", "a - c", "b - c"], contrasts.Select(c => c.Name));
        Assert.Equal(-fit.FixedEffects[0].Estimate, contrasts[0].Estimate, 1e-12);
        Assert.Equal(fit.FixedEffects[0].StandardError, contrasts[0].StandardError, 1e-12);
        Assert.Equal(double.PositiveInfinity, contrasts[0].DegreesOfFreedom);
        Assert.Equal(3, fit.MarginalMeans("factor").Count);
    }

    [Fact]
    public void Separated_categories_are_a_caution()
    {
        string[] response = [.. Enumerable.Range(0, 40).Select(i => i < 20 ? "low" : "high")];
        var factor = CategoricalColumn.From("factor", [.. Enumerable.Range(0, 40).Select(i => i < 20 ? "a" : "b")]);
        var fit = OrdinalMixedModel.Fit(OrdinalDesign.For(CategoricalColumn.From("score", response, ["low", "high"])).WithFixed(factor));
        Assert.NotEmpty(fit.Cautions);
    }

    [Fact]
    public void Bad_designs_are_explained()
    {
        var s = OrdinalSimulation.Create(31, 60, 6, 3);
        var same = CategoricalColumn.From("score", Enumerable.Repeat("3", 5).ToArray());
        Assert.Contains("'3' in all 5 rows", Assert.Throws<ModelException>(() => OrdinalDesign.For(same)).Message, StringComparison.Ordinal);
        Assert.Contains("no rows", Assert.Throws<ModelException>(() => OrdinalDesign.For(CategoricalColumn.From("score", []))).Message, StringComparison.Ordinal);

        var design = OrdinalDesign.For(s.Response);
        var one = CategoricalColumn.From("taster", Enumerable.Repeat("me", 60).ToArray());
        Assert.Contains("one level", Assert.Throws<ModelException>(() => OrdinalMixedModel.Fit(design.WithRandomIntercept(one))).Message, StringComparison.Ordinal);
        var constant = new NumericColumn("day", Enumerable.Repeat(3.0, 60).ToArray());
        Assert.Contains("one value", Assert.Throws<ModelException>(() => OrdinalMixedModel.Fit(design.WithRandomSlope(s.Group, constant))).Message, StringComparison.Ordinal);
        Assert.Contains("exactly one random term", Assert.Throws<ModelException>(() =>
            OrdinalMixedModel.Fit(design.WithRandomIntercept(s.Group).WithRandomIntercept(s.Crossed), new OrdinalMixedModelOptions { QuadraturePoints = 5 })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => OrdinalMixedModel.Fit(design, new OrdinalMixedModelOptions { QuadraturePoints = 0 }));
        var two = CategoricalColumn.From("score", [.. Enumerable.Range(0, 60).Select(i => i % 2 == 0 ? "a" : "b")]);
        Assert.Contains("three or more", Assert.Throws<ModelException>(() => OrdinalMixedModel.Fit(OrdinalDesign.For(two), new OrdinalMixedModelOptions { Thresholds = ThresholdStructure.Equidistant })).Message, StringComparison.Ordinal);
        Assert.Contains("three or more", Assert.Throws<ModelException>(() => OrdinalMixedModel.Fit(OrdinalDesign.For(two).WithScale(s.Factor))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => design.WithFixed(new NumericColumn("short", new[] { 1.0 })));
        Assert.Throws<ArgumentException>(() => design.WithWeights(new double[60]));
        var few = OrdinalDesign.For(CategoricalColumn.From("score", ["1", "2", "3"])).WithFixed(new NumericColumn("x", new[] { 1.0, 2.0, 4.0 }));
        Assert.Contains("more rows than parameters", Assert.Throws<ModelException>(() => OrdinalMixedModel.Fit(few)).Message, StringComparison.Ordinal);

        var fit = OrdinalMixedModel.Fit(design.WithFixed(s.Factor).WithRandomIntercept(s.Group));
        Assert.Contains("there are group", Assert.Throws<ArgumentException>(() => fit.ConditionalModes("judge")).Message, StringComparison.Ordinal);
        Assert.Contains("no factor 'brewer'", Assert.Throws<ArgumentException>(() => fit.MarginalMeans("brewer")).Message, StringComparison.Ordinal);
        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.Throws<OperationCanceledException>(() => OrdinalMixedModel.Fit(design.WithFixed(s.Factor), null, source.Token));
    }

    private static OrdinalDesign WithoutEffects(OrdinalSimulation s, ulong seed)
    {
        var design = OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate);
        return seed % 6 == 5 && s.Response.Levels.Count > 2 ? design.WithScale(s.Period).WithWeights(s.Weights) : design;
    }

    private static void AssertWithin(double truth, OrdinalMixedModelFit fit, string name)
    {
        var effect = fit.FixedEffects.Single(e => e.Name == name);
        Assert.InRange((effect.Estimate - truth) / effect.StandardError, -3.5, 3.5);
    }

    private static OrdinalDesign WineDesign() =>
        OrdinalDesign.For(WineFactor("rating")).WithFixed(WineFactor("temp")).WithFixed(WineFactor("contact"));

    private static CategoricalColumn WineFactor(string name)
    {
        var data = DataTable.Read(Path.Combine(Wine, "data.csv"));
        return CategoricalColumn.From(name, data.Column(name, [.. Enumerable.Range(0, data.RowCount)]));
    }
}
