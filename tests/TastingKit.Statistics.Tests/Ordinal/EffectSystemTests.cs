using MathNet.Numerics.LinearAlgebra;

namespace TastingKit.Statistics.Tests;

public sealed class EffectSystemTests
{
    [Theory]
    [InlineData("dense")]
    [InlineData("diagonal")]
    [InlineData("arrow")]
    [InlineData("ragged")]
    public void An_envelope_is_factored_solved_and_inverted_as_the_whole_matrix_is(string shape)
    {
        const int order = 23;
        var random = new RandomStream(8);
        int[] first = [.. Enumerable.Range(0, order).Select(row => shape switch
        {
            "dense" => 0,
            "diagonal" => row,
            "arrow" => row < order - 2 ? row : 0,
            _ => row - random.NextInt32(row + 1),
        })];
        var envelope = new EnvelopeCholesky(first);
        var whole = Matrix<double>.Build.Dense(order, order);
        for (int row = 0; row < order; row++)
        {
            for (int column = first[row]; column <= row; column++)
            {
                envelope[row, column] = whole[row, column] = whole[column, row] = row == column ? order : random.NextNormal();
            }
        }

        Assert.True(envelope.TryFactor());
        var lower = whole.Cholesky().Factor;
        double[] right = [.. Enumerable.Range(0, order).Select(_ => random.NextNormal())];
        double[] solved = [.. right];
        envelope.Solve(solved);
        var expected = whole.Solve(Vector<double>.Build.Dense(right));
        envelope.Invert();
        var inverse = whole.Inverse();
        for (int row = 0; row < order; row++)
        {
            Assert.Equal(expected[row], solved[row], 1e-12);
            for (int column = first[row]; column <= row; column++)
            {
                Assert.Equal(lower[row, column], envelope[row, column], 1e-12);
                Assert.Equal(inverse[row, column], envelope.Inverse(row, column), 1e-13);
                Assert.Equal(inverse[row, column], envelope.Inverse(column, row), 1e-13);
            }
        }
    }

    [Fact]
    public void A_matrix_that_is_not_positive_definite_is_not_factored()
    {
        var envelope = new EnvelopeCholesky([0, 0]);
        (envelope[0, 0], envelope[1, 0], envelope[1, 1]) = (1, 2, 1);
        Assert.False(envelope.TryFactor());
    }

    [Fact]
    public void Nested_and_crossed_terms_with_a_slope_agree_with_the_whole_matrix()
    {
        const int rows = 160;
        var random = new RandomStream(9);
        int[] bags = [.. Enumerable.Range(0, rows).Select(_ => random.NextInt32(30))];
        var bag = CategoricalColumn.From("bag", [.. bags.Select(b => $"b{b:00}")]);
        var coffee = CategoricalColumn.From("coffee", [.. bags.Select(b => $"c{b % 23:00}")]);
        var taster = CategoricalColumn.From("taster", [.. Enumerable.Range(0, rows).Select(_ => $"t{random.NextInt32(3)}")]);
        var rest = new NumericColumn("rest", Enumerable.Range(0, rows).Select(_ => random.NextNormal()).ToArray());
        var response = CategoricalColumn.From("score", [.. Enumerable.Range(0, rows).Select(i => $"s{i % 4}")]);
        // The few tasters stand first, which leaves the order of elimination to the system.
        var terms = OrdinalSystem.Of(
            OrdinalDesign.For(response).WithRandomIntercept(taster).WithRandomIntercept(coffee).WithRandomIntercept(bag).WithRandomSlope(coffee, rest), new OrdinalMixedModelOptions()).Terms;
        double[] deviations = [0.7, 0.9, 0.4, 0.3];
        double[] weights = [.. Enumerable.Range(0, rows).Select(_ => 0.2 + random.NextDouble())];
        var system = new EffectSystem(terms);
        system.Factor(weights, deviations);

        var whole = Matrix<double>.Build.DenseIdentity(system.Count);
        for (int row = 0; row < rows; row++)
        {
            for (int t = 0; t < terms.Length; t++)
            {
                for (int s = 0; s < terms.Length; s++)
                {
                    whole[system.Index(t, row), system.Index(s, row)] += weights[row] * system.Share(t, row, deviations) * system.Share(s, row, deviations);
                }
            }
        }

        Assert.Equal(30 + 23 + 23 + 3, system.Count);
        Assert.Equal(Math.Log(whole.Determinant()), system.LogDeterminant(), 1e-10);
        double[] right = [.. Enumerable.Range(0, system.Count).Select(_ => random.NextNormal())];
        double[] solved = [.. right];
        system.Solve(solved);
        var expected = whole.Solve(Vector<double>.Build.Dense(right));
        Assert.All(Enumerable.Range(0, system.Count), i => Assert.Equal(expected[i], solved[i], 1e-12));
        var inverse = whole.Inverse();
        for (int row = 0; row < rows; row++)
        {
            for (int t = 0; t < terms.Length; t++)
            {
                for (int s = 0; s < terms.Length; s++)
                {
                    Assert.Equal(inverse[system.Index(t, row), system.Index(s, row)], system.Inverse(system.Index(t, row), system.Index(s, row)), 1e-12);
                }
            }
        }
    }
}
