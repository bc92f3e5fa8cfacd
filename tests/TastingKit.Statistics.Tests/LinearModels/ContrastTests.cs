using System.Text.Json;

namespace TastingKit.Statistics.Tests.LinearModels;

public class ContrastTests
{
    private readonly LinearMixedModelFit _fit;

    public ContrastTests()
    {
        // Six samples on every one of 24 plates: all pairs have one standard error, so that Tukey's procedure is exact.
        string[][] rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "ReferenceCases", "penicillin", "data.csv")).Skip(1).Select(line => line.Replace("\"", "", StringComparison.Ordinal).Split(','))];
        double[] diameter = [.. rows.Select(row => double.Parse(row[0], System.Globalization.CultureInfo.InvariantCulture))];
        _fit = LinearMixedModel.Fit(ModelDesign.For("diameter", diameter)
            .WithFixed(CategoricalColumn.From("sample", [.. rows.Select(row => row[2])])).WithRandomIntercept(CategoricalColumn.From("plate", [.. rows.Select(row => row[1])])));
    }

    [Fact]
    public void Simultaneous_intervals_of_all_pairs_are_Tukeys_where_his_are_exact()
    {
        var simultaneous = _fit.Contrasts("sample");
        var tukey = _fit.Contrasts("sample", Adjustment.Tukey);
        for (int i = 0; i < tukey.Count; i++)
        {
            Assert.Equal(tukey[i].Name, simultaneous[i].Name);
            Assert.Equal(tukey[i].AdjustedP, simultaneous[i].AdjustedP, 2e-5);
            Assert.Equal(tukey[i].Low, simultaneous[i].Low, 1e-3);
        }
    }

    [Fact]
    public void Adjustments_are_ordered_and_seeds_repeat()
    {
        var none = _fit.Contrasts("sample", Adjustment.None);
        var holm = _fit.Contrasts("sample", Adjustment.Holm);
        var simultaneous = _fit.Contrasts("sample");
        Assert.Equal(15, none.Count);
        for (int i = 0; i < none.Count; i++)
        {
            Assert.Equal(none[i].P, none[i].AdjustedP);
            Assert.True(simultaneous[i].AdjustedP >= none[i].P && holm[i].AdjustedP >= none[i].P);
            Assert.True(simultaneous[i].Low < none[i].Low && holm[i].Low < simultaneous[i].Low);
        }

        Assert.Equal(simultaneous, _fit.Contrasts("sample"));
    }

    [Fact]
    public void Custom_contrasts_are_one_family()
    {
        var means = _fit.Cells(["sample"], Setting.Averaged());
        var family = new[] { new NamedFunction("A against the rest", means[0].Function - LinearFunction.Mean(means.Skip(1).Select(mean => mean.Function))), new NamedFunction("B - C", means[1].Function - means[2].Function) };
        var contrasts = _fit.Contrasts(family);
        Assert.Equal(["A against the rest", "B - C"], contrasts.Select(contrast => contrast.Name));
        Assert.All(contrasts, contrast => Assert.Equal(2, contrast.FamilySize));
        Assert.Throws<ArgumentException>(() => _fit.Contrasts(family, Adjustment.Tukey));
    }

    [Fact]
    public void The_omnibus_test_is_the_reference_type_III_test()
    {
        using var reference = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "ReferenceCases", "penicillin", "reference.json")));
        var row = reference.RootElement.GetProperty("models").EnumerateArray().Single(model => model.GetProperty("id").GetString() == "sample-fixed").GetProperty("anova_type3")[0];
        var test = _fit.Test("sample");
        Assert.Equal(row.GetProperty("num_df").GetDouble(), test.NumeratorDegreesOfFreedom);
        Assert.Equal(row.GetProperty("F").GetDouble(), test.F, 1e-4);
        Assert.Equal(row.GetProperty("den_df").GetDouble(), test.DenominatorDegreesOfFreedom, 1e-3);
        Assert.Equal(1, test.P / row.GetProperty("p").GetDouble(), 1e-3);
    }

    [Fact]
    public void A_main_effect_beside_its_interaction_is_tested_over_equal_weights()
    {
        double[] y = [1, 2, 3, 4, 6, 5, 2, 4, 3, 9, 7, 8, 10];
        string[] a = ["p", "p", "p", "p", "p", "p", "q", "q", "q", "q", "q", "q", "q"], b = ["u", "u", "u", "v", "v", "v", "u", "u", "u", "v", "v", "v", "v"];
        CategoricalColumn first = CategoricalColumn.From("a", a), second = CategoricalColumn.From("b", b);
        var fit = LinearMixedModel.Fit(ModelDesign.For("y", y).WithFixed(first).WithFixed(second).WithInteraction(first, second));
        var pair = fit.Contrasts("a", Adjustment.None)[0];
        var test = fit.Test("a");
        Assert.Equal(pair.T * pair.T, test.F, 1e-9);
        Assert.Equal(9, test.DenominatorDegreesOfFreedom, 1e-9);
        Assert.Equal(pair.P, test.P, 1e-9);
        Assert.Throws<ArgumentException>(() => fit.Test("c"));
    }
}
