using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Joint draws of predictions, one column a prediction.</summary>
internal sealed class PredictionDraws
{
    /// <summary>From how many cups on a log is large: they settle its variances, and each draw of them takes long.</summary>
    public const int LargeLog = 3000;

    /// <summary>How variances are drawn for a large log.</summary>
    public static readonly DrawOptions OfLargeLog = new() { VarianceProposals = 50, PilotDraws = 50 };

    // Enough different variances that the half-per-cent tails of an interval don't hang on a few of them.
    private static readonly DrawOptions Options = new() { VarianceProposals = 400, PilotDraws = 100 };

    private readonly double[][] _columns;

    private PredictionDraws(double[,] values)
    {
        Values = values;
        _columns = new double[values.GetLength(1)][];
        for (var c = 0; c < _columns.Length; c++)
        {
            _columns[c] = new double[values.GetLength(0)];
            for (var r = 0; r < _columns[c].Length; r++)
                _columns[c][r] = values[r, c];
        }
    }

    /// <summary>Draws × predictions.</summary>
    public double[,] Values { get; }

    public int Count => Values.GetLength(0);

    public int Width => _columns.Length;

    public double this[int draw, int prediction] => Values[draw, prediction];

    public static PredictionDraws Of(LinearMixedModelFit fit, IReadOnlyList<LinearFunction> functions, int count, ulong seed, WorkWatch watch, DrawOptions? options = null) =>
        Of(Joint(fit, count, seed, watch, options), functions, watch);

    /// <summary>
    /// Draws of predictions some of which need a level that no cup has: its deviation is drawn anew in each draw, with the group's
    /// standard deviation in that draw.
    /// </summary>
    public static PredictionDraws Of(LinearMixedModelFit fit, IReadOnlyList<FurtherFunction> predictions, int count, ulong seed, WorkWatch watch, DrawOptions? options = null) =>
        Of(Joint(fit, count, seed, watch, options), predictions, seed, watch);

    /// <summary>The same in draws that are there already.</summary>
    public static PredictionDraws Of(JointDraws draws, IReadOnlyList<FurtherFunction> predictions, ulong seed, WorkWatch watch)
    {
        var values = draws.Evaluate([.. predictions.Select(p => p.Known)], watch.Step("drawing effects"), watch.CancellationToken);
        var spread = predictions.SelectMany(p => p.New).Select(level => level.Group).Distinct().ToDictionary(group => group, group => draws.StandardDeviations(group));
        var random = new RandomStream(seed).Split(1);
        for (var p = 0; p < predictions.Count; p++)
        {
            foreach (var level in predictions[p].New)
            {
                for (var draw = 0; draw < draws.Count; draw++)
                    values[draw, p] += spread[level.Group][draw] * level.Weight * random.NextNormal();
            }
        }

        return new PredictionDraws(values);
    }

    /// <summary>The joint draws themselves, for more than predictions.</summary>
    public static JointDraws Joint(LinearMixedModelFit fit, int count, ulong seed, WorkWatch watch, DrawOptions? options = null) =>
        fit.DrawJoint(count, seed, options ?? Options, watch.Step("drawing variances"), watch.CancellationToken);

    /// <summary>Predictions in draws that are there already.</summary>
    public static PredictionDraws Of(JointDraws draws, IReadOnlyList<LinearFunction> functions, WorkWatch watch) =>
        new(draws.Evaluate(functions, watch.Step("drawing effects"), watch.CancellationToken));

    /// <summary>Some neighbouring predictions of all.</summary>
    public PredictionDraws Slice(int first, int width)
    {
        var values = new double[Count, width];
        for (var draw = 0; draw < Count; draw++)
        {
            for (var p = 0; p < width; p++)
                values[draw, p] = Values[draw, first + p];
        }

        return new PredictionDraws(values);
    }

    public ReadOnlySpan<double> Column(int prediction) => _columns[prediction];

    /// <summary>Mean and the middle 95 % of one prediction.</summary>
    public (double Mean, double Low, double High) Middle(int prediction)
    {
        var sorted = _columns[prediction].ToArray();
        Array.Sort(sorted);
        return (sorted.Average(), Quantiles.OfSorted(sorted, 0.025), Quantiles.OfSorted(sorted, 0.975));
    }
}
