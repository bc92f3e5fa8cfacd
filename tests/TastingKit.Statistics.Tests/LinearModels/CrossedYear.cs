namespace TastingKit.Statistics.Tests.LinearModels;

/// <summary>A simulated year of tastings with known truth: bags, days and brewers crossed, a brewer effect and a slope.</summary>
internal sealed class CrossedYear
{
    public const double BrewerEffect = 0.4, Slope = 0.02, BagDeviation = 0.8, DayDeviation = 0.4, Residual = 0.6;

    private readonly string[] _bags, _days, _brewers;
    private readonly double[] _rest, _response;

    public CrossedYear(ulong seed, int rows = 480, int bags = 70, int days = 60)
    {
        var random = new RandomStream(seed);
        double[] bag = [.. Enumerable.Range(0, bags).Select(_ => BagDeviation * random.NextNormal())], day = [.. Enumerable.Range(0, days).Select(_ => DayDeviation * random.NextNormal())];
        (_bags, _days, _brewers, _rest, _response) = (new string[rows], new string[rows], new string[rows], new double[rows], new double[rows]);
        for (int row = 0; row < rows; row++)
        {
            int b = row < bags ? row : random.NextInt32(bags), d = row < days ? row : random.NextInt32(days), brewer = random.NextInt32(2);
            _bags[row] = $"bag {b}";
            _days[row] = $"day {d}";
            _brewers[row] = brewer == 0 ? "cone dripper" : "flat-bed dripper";
            _rest[row] = 30 * random.NextDouble();
            _response[row] = 6 + BrewerEffect * brewer + Slope * _rest[row] + bag[b] + day[d] + Residual * random.NextNormal();
        }
    }

    public int RowCount => _response.Length;

    /// <summary>The design, over rows in a given order, with levels and response changed as asked.</summary>
    public ModelDesign Design(int[]? order = null, Func<string, string>? relabel = null, Func<double, double>? respond = null)
    {
        int[] rows = order ?? [.. Enumerable.Range(0, RowCount)];
        string[] Take(string[] values) => [.. rows.Select(row => relabel is null ? values[row] : relabel(values[row]))];
        return ModelDesign.For("score", rows.Select(row => respond is null ? _response[row] : respond(_response[row])).ToArray())
            .WithFixed(CategoricalColumn.From("brewer", [.. rows.Select(row => _brewers[row])]))
            .WithFixed(new NumericColumn("rest", rows.Select(row => _rest[row]).ToArray()))
            .WithRandomIntercept(CategoricalColumn.From("bag", Take(_bags)))
            .WithRandomIntercept(CategoricalColumn.From("day", Take(_days)));
    }
}
