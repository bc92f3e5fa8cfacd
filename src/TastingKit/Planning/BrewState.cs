using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Where a question's answer stands, and where each further cup would take it.</summary>
internal abstract class BrewState
{
    /// <summary>The fewest draws of the truth by which the naming of the best is judged.</summary>
    public const int FewestDraws = 4000;

    private const int MostDraws = 20_000;

    // Cups that are drawn together; of more a log's every rival and bag would cost minutes.
    private const int MostAtOnce = 250;

    // Drawing the truth costs the square of the number of functions.
    private const double Work = 2e8;

    /// <summary>Where it stands now.</summary>
    public abstract BrewStand Stand { get; }

    /// <summary>Which of the functions asked has the highest predicted value; nothing where one number is asked.</summary>
    public virtual int? Leader => null;

    /// <summary>The state before any further cup.</summary>
    /// <param name="observations">The functions asked, then the cups that could be brewed, which are numbered from 0 in what follows.</param>
    /// <param name="asked">How many are asked: one number, or the rivals of which the best is to be named.</param>
    /// <param name="seed">Seed of the draws of the truth.</param>
    /// <param name="mostDraws">The most draws of the truth; nothing for as many as a reader gets.</param>
    public static BrewState Of(FurtherObservations observations, int asked, ulong seed, int? mostDraws = null)
    {
        if (asked == 1)
            return OfNumber(observations, Quantiles.Normal95 * Math.Sqrt(observations.Variance(0)));
        if (observations.Count - asked > MostAtOnce)
            return new OfBestOfMany(observations, asked, seed);
        var draws = (int)Math.Clamp(Work / observations.Count / observations.Count, FewestDraws, mostDraws ?? MostDraws);
        var naming = BestNaming.Of(observations, [.. Enumerable.Range(0, asked)], draws, seed);
        return new OfBest(naming, asked, naming.Probability);
    }

    /// <summary>The state of one number before any further cup.</summary>
    /// <param name="observations">The number asked and the cups that could be brewed.</param>
    /// <param name="halfWidth">Half of its 95 % interval now.</param>
    public static BrewState OfNumber(FurtherObservations observations, double halfWidth) => new OfOne(observations, halfWidth);

    /// <summary>What one cup would do.</summary>
    public abstract (double Gain, BrewStand After) With(int cup);

    /// <summary>The state once a cup is planned.</summary>
    public abstract BrewState Planned(int cup);

    private sealed class OfOne(FurtherObservations observations, double halfWidth) : BrewState
    {
        public override BrewStand Stand => new(halfWidth, false);

        public override (double Gain, BrewStand After) With(int cup)
        {
            var variance = observations.Variance(0);
            var gain = variance > 0 ? observations.Reduction(0, 1 + cup) / variance : 0;
            return (gain, new BrewStand(halfWidth * Math.Sqrt(Math.Max(0, 1 - gain)), false));
        }

        public override BrewState Planned(int cup) => new OfOne(observations.After(1 + cup), With(cup).After.Value);
    }

    // What a planned cup tastes of is drawn as well, which moves the share of draws by chance; gains add up from the same draws without that.
    private sealed class OfBest(BestNaming naming, int rivals, double stand) : BrewState
    {
        public override BrewStand Stand => new(stand, true);

        public override int? Leader => Enumerable.Range(0, rivals).MaxBy(naming.Observations.Value);

        public override (double Gain, BrewStand After) With(int cup)
        {
            var gain = naming.ProbabilityAfter(rivals + cup) - naming.Probability;
            return (gain, new BrewStand(stand + gain, true));
        }

        public override BrewState Planned(int cup) => new OfBest(naming.After(rivals + cup), rivals, With(cup).After.Value);
    }

    // Only for looking at each cup by itself; the draws of the rivals are the same in all parts but the last.
    private sealed class OfBestOfMany : BrewState
    {
        private readonly BrewState[] _parts;

        public OfBestOfMany(FurtherObservations observations, int asked, ulong seed) =>
            _parts = [.. Enumerable.Range(asked, observations.Count - asked).Chunk(MostAtOnce).Select(part => Of(observations.Only([.. Enumerable.Range(0, asked), .. part]), asked, seed))];

        public override BrewStand Stand => _parts[0].Stand;

        public override int? Leader => _parts[0].Leader;

        public override (double Gain, BrewStand After) With(int cup)
        {
            var gain = _parts[cup / MostAtOnce].With(cup % MostAtOnce).Gain;
            return (gain, Stand with { Value = Stand.Value + gain });
        }

        public override BrewState Planned(int cup) => throw new NotSupportedException($"A plan is made of at most {MostAtOnce} cups at a time.");
    }
}
