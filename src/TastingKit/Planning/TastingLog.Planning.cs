namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>
    /// What to brew next to settle a question: every cup that can be brewed by what it is expected to do for the answer, from the design of the log
    /// alone, and a plan of the next few.
    /// </summary>
    /// <param name="question">The question; which coffee is the best where not given.</param>
    /// <param name="candidates">What may be brewed, and within what limits of grams, cups a day and hours.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">A bag, brewer, recipe or coffee is named that the log does not have; the message lists those it has.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A limit is out of its range.</exception>
    public NextBrew NextBrew(BrewQuestion? question = null, BrewCandidates? candidates = null, ulong seed = DefaultSeed) =>
        NextBrewAnalysis.Of(this, question ?? BrewQuestion.BestCoffee(), candidates ?? new BrewCandidates(), seed);
}
