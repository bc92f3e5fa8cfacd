using TastingKit.Checking;
using TastingKit.Statistics;

namespace TastingKit.Tests.Log.Checking;

public sealed class RepeatedRowsTests
{
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1)]
    [InlineData(9, 3)]
    [InlineData(5_000, 100_000)]
    [InlineData(30_000, 20_000)]
    [InlineData(30_000, 1)]
    public void Each_row_is_held_against_the_first_that_says_the_same(int rows, int distinct)
    {
        var random = new RandomStream(8);
        ulong[] sayings = [.. Enumerable.Range(0, distinct).Select(_ => ((ulong)(uint)random.NextInt32(int.MaxValue) << 32) | (uint)random.NextInt32(int.MaxValue))];
        List<ulong> contents = [.. Enumerable.Range(0, rows).Select(_ => sayings[random.NextInt32(distinct)])];
        var found = new List<(int Earlier, int Later)>();
        RepeatedRows.Find(contents, (earlier, later) => found.Add((earlier, later)));

        var first = new Dictionary<ulong, int>();
        Assert.Equal(
            Enumerable.Range(0, rows).Where(row => !first.TryAdd(contents[row], row)).Select(row => (first[contents[row]], row)),
            found);
    }

    [Fact]
    public void Rows_whose_numbers_differ_in_one_half_alone_are_told_apart()
    {
        List<ulong> contents = [.. Enumerable.Range(0, 10_000).SelectMany(i => new[] { (ulong)i, (ulong)i << 32 })];
        var found = new List<(int Earlier, int Later)>();
        RepeatedRows.Find(contents, (earlier, later) => found.Add((earlier, later)));
        Assert.Equal([(0, 1)], found);
    }
}
