using MathNet.Numerics.LinearAlgebra;

namespace TastingKit.Statistics.Tests.LinearModels;

/// <summary>What rows yet to come would do, held against Henderson's equations solved densely with these rows in them.</summary>
public sealed class FurtherObservationsTests
{
    private static readonly LinearMixedModelFit Fit = LinearMixedModel.Fit(new CrossedYear(4, rows: 60, bags: 9, days: 14).Design());

    // A cup of a bag and a day that are there, one of a new day, a second one of that day, and one of a new bag.
    private static readonly Row[] Rows =
    [
        new("flat-bed dripper", 12, "bag 3", "day 2"), new("cone dripper", 20, "bag 3", "tomorrow"),
        new("flat-bed dripper", 4, "bag 5", "tomorrow"), new("cone dripper", 9, "sealed", "tomorrow"),
    ];

    private static FurtherFunction Brewers { get; } = new(Fit.FixedEffect("brewerflat-bed dripper"));

    private static FurtherFunction OfBag(string bag) => new FurtherFunction(Fit.At(Setting.Averaged().With("rest", 10).With("brewer", "cone dripper"))) + Effect("bag", bag);

    private static FurtherFunction Of(Row row) =>
        new FurtherFunction(Fit.At(Setting.Averaged().With("rest", row.Rest).With("brewer", row.Brewer))) + Effect("bag", row.Bag) + Effect("day", row.Day);

    private static FurtherFunction Effect(string group, string level) => level is "tomorrow" or "sealed"
        ? new FurtherFunction(LinearFunction.Zero, new NewLevel(group, level, 1))
        : new FurtherFunction(Fit.RandomEffect(group, level));

    [Fact]
    public void The_promised_variance_is_that_of_a_refit_with_the_rows_and_the_variances_held()
    {
        FurtherFunction[] asked = [Brewers, OfBag("bag 3"), OfBag("sealed"), OfBag("bag 3") - OfBag("bag 5")];
        var now = FurtherObservations.Of(Fit, [.. asked, .. Rows.Select(Of)]);
        for (int a = 0; a < asked.Length; a++)
        {
            double before = Dense(asked[a], []);
            Assert.Equal(before, now.Variance(a), 1e-9 * before);
            for (int row = 0; row < Rows.Length; row++)
            {
                double after = Dense(asked[a], [Rows[row]]);
                Assert.Equal(before - after, now.Reduction(a, asked.Length + row), 1e-9 * before);
            }

            var planned = now;
            for (int row = 0; row < Rows.Length; row++) planned = planned.After(asked.Length + row);
            double afterAll = Dense(asked[a], Rows);
            Assert.Equal(afterAll, planned.Variance(a), 1e-8 * before);
            Assert.True(afterAll < 0.98 * before, "rows that change nothing would show nothing");
        }
    }

    [Fact]
    public void Variances_can_be_held_at_the_middle_of_draws_where_the_fit_has_nought()
    {
        // Days do not differ at all: their variance is estimated as zero.
        var random = new RandomStream(5);
        string[] days = [.. Enumerable.Range(0, 40).Select(i => $"d{i / 4}")], bags = [.. Enumerable.Range(0, 40).Select(i => $"b{i % 5}")];
        double[] scores = [.. bags.Select(bag => 0.5 * (bag[1] - '0') + 0.5 * random.NextNormal())];
        for (int i = 0; i < 40; i++) scores[i] -= Enumerable.Range(0, 4).Average(k => scores[i / 4 * 4 + k]) - 6;
        var fit = LinearMixedModel.Fit(ModelDesign.For("y", scores).WithRandomIntercept(CategoricalColumn.From("bag", bags)).WithRandomIntercept(CategoricalColumn.From("day", days)));
        var tomorrow = new FurtherFunction(LinearFunction.Zero, new NewLevel("day", "tomorrow", 1));

        Assert.Null(fit.InterceptVariance("day"));
        Assert.Equal(0, FurtherObservations.Of(fit, [tomorrow]).Variance(0));
        JointDraws draws = fit.DrawJoint(1000, 3);
        var held = FurtherObservations.Of(fit, [tomorrow], draws);
        double[] deviations = [.. draws.StandardDeviations("day").Order()], residuals = [.. draws.ResidualStandardDeviations().Order()];
        Assert.Equal(deviations[500], Math.Sqrt(held.Variance(0)), 0.01 * deviations[500]);
        Assert.Equal(residuals[500], Math.Sqrt(held.NoiseVariance), 0.01 * residuals[500]);
    }

    [Fact]
    public void A_level_that_is_there_is_not_new()
    {
        var thrown = Assert.Throws<ArgumentException>(() => FurtherObservations.Of(Fit, [new FurtherFunction(LinearFunction.Zero, new NewLevel("bag", "bag 3", 1))]));
        Assert.Contains("'bag 3' already", thrown.Message, StringComparison.Ordinal);
    }

    private static double Dense(FurtherFunction asked, Row[] further)
    {
        var design = Fit.Design;
        var brewer = (CategoricalColumn)design.FixedTerms[0].Columns[0];
        var rest = (NumericColumn)design.FixedTerms[1].Columns[0];
        var bag = design.RandomTerms[0].Group;
        var day = design.RandomTerms[1].Group;
        int rows = design.RowCount, all = rows + further.Length;
        string[] bags = [.. bag.Levels, "sealed"], days = [.. day.Levels, "tomorrow"];
        int size = 3 + bags.Length + days.Length;
        var w = Matrix<double>.Build.Dense(all, size);
        for (int row = 0; row < all; row++)
        {
            bool isNew = row >= rows;
            w[row, 0] = 1;
            w[row, 1] = (isNew ? further[row - rows].Brewer : brewer.Levels[brewer.Codes[row]]) == "flat-bed dripper" ? 1 : 0;
            w[row, 2] = isNew ? further[row - rows].Rest : rest.Values[row];
            w[row, 3 + Array.IndexOf(bags, isNew ? further[row - rows].Bag : bag.Levels[bag.Codes[row]])] = 1;
            w[row, 3 + bags.Length + Array.IndexOf(days, isNew ? further[row - rows].Day : day.Levels[day.Codes[row]])] = 1;
        }

        double residual = Fit.ResidualStandardDeviation * Fit.ResidualStandardDeviation;
        var system = w.TransposeThisAndMultiply(w) / residual;
        for (int i = 0; i < bags.Length; i++) system[3 + i, 3 + i] += 1 / Math.Pow(Fit.VarianceComponents[0].StandardDeviations[0], 2);
        for (int i = 0; i < days.Length; i++) system[3 + bags.Length + i, 3 + bags.Length + i] += 1 / Math.Pow(Fit.VarianceComponents[1].StandardDeviations[0], 2);
        var weights = Vector<double>.Build.Dense(size);
        for (int i = 0; i < asked.Known.Indices.Length; i++) weights[ColumnOf(asked.Known.Indices[i])] += asked.Known.Weights[i];
        foreach (var level in asked.New) weights[level.Group == "bag" ? 3 + bags.Length - 1 : size - 1] += level.Weight;
        return weights * system.Inverse() * weights;

        // The fit numbers groups in an order of its own.
        int ColumnOf(int index)
        {
            if (index < 3) return index;
            int of = Enumerable.Range(0, bag.Levels.Count).FirstOrDefault(level => Fit.RandomEffect("bag", bag.Levels[level]).Indices[0] == index, -1);
            return of >= 0 ? 3 + of : 3 + bags.Length + Enumerable.Range(0, day.Levels.Count).Single(level => Fit.RandomEffect("day", day.Levels[level]).Indices[0] == index);
        }
    }

    private sealed record Row(string Brewer, double Rest, string Bag, string Day);
}
