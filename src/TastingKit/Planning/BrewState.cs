using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Where a question's answer stands, and where each further cup would take it.</summary>
internal abstract class BrewState
{
    private const double Reach = 1.959963984540054;
    private const int FewestDraws = 4000;
    private const int MostDraws = 20_000;

    // Drawing the truth costs the square of the number of functions.
    private const double Work = 2e8;

    /// <summary>Where it stands now.</summary>
    public abstract BrewStand Stand { get; }

    /// <summary>Which of the functions asked has the highest predicted value; nothing where one number is asked.</summary>
    public virtual int? Leader => null;

    /// <summary>The state before any further cup.</summary>
    /// <param name="model">The fit.</param>
    /// <param name="asked">The functions asked.</param>
    /// <param name="cups">The cups that could be brewed, numbered from 0 in what follows.</param>
    /// <param name="heldAt">Draws at whose middle the variances are held; nothing for the estimates.</param>
    /// <param name="seed">Seed of the draws of the truth.</param>
    public static BrewState Of(LinearMixedModelFit model, AskedQuestion asked, IReadOnlyList<FurtherFunction> cups, JointDraws? heldAt, ulong seed)
    {
        var observations = FurtherObservations.Of(model, [.. asked.Functions, .. cups], heldAt);
        if (!asked.IsNaming)
            return new OfOne(observations);
        var draws = (int)Math.Clamp(Work / observations.Count / observations.Count, FewestDraws, MostDraws);
        var naming = BestNaming.Of(observations, [.. Enumerable.Range(0, asked.Functions.Count)], draws, seed);
        return new OfBest(naming, asked.Functions.Count, naming.Probability);
    }

    /// <summary>What one cup would do.</summary>
    public abstract (double Gain, BrewStand After) With(int cup);

    /// <summary>The state once a cup is planned.</summary>
    public abstract BrewState Planned(int cup);

    private sealed class OfOne(FurtherObservations observations) : BrewState
    {
        public override BrewStand Stand => HalfWidth(observations.Variance(0));

        public override (double Gain, BrewStand After) With(int cup)
        {
            var (before, less) = (observations.Variance(0), observations.Reduction(0, 1 + cup));
            return before > 0 ? (less / before, HalfWidth(before - less)) : (0, Stand);
        }

        public override BrewState Planned(int cup) => new OfOne(observations.After(1 + cup));

        private static BrewStand HalfWidth(double variance) => new(Reach * Math.Sqrt(Math.Max(0, variance)), false);
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
}
