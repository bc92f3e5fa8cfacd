using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A question put to the cups: what is asked, the model that answers it, and what a further cup is in that model.</summary>
/// <param name="Asked">The question in words and names.</param>
/// <param name="Cups">The cups of the model.</param>
/// <param name="LeftOut">The cups that are not.</param>
/// <param name="Columns">The columns of the model.</param>
/// <param name="OfCup">A cup that could be brewed, as the model expects it; nothing where the log can't tell parts of it apart.</param>
/// <param name="StateOf">Where the answer stands and what each of some cups would do, with a seed for what is drawn.</param>
/// <param name="StandardBrew">The brew under which coffees are compared.</param>
/// <param name="Model">The model in words.</param>
/// <param name="Estimator">How the answer and the gains are computed, in words.</param>
/// <param name="Cautions">What the model leaves out.</param>
internal sealed record BrewInquiry(
    AskedQuestion Asked, IReadOnlyList<Tasting> Cups, IReadOnlyList<LeftOut> LeftOut, ScoreColumns Columns,
    Func<Tasting, FurtherFunction?> OfCup, Func<IReadOnlyList<FurtherFunction>, ulong, BrewState> StateOf,
    StandardBrew StandardBrew, string Model, string Estimator, IReadOnlyList<Caution> Cautions)
{
    /// <summary>What one more cup takes from the variance of an answer, in words.</summary>
    public const string OneMoreCup =
        "with c what is asked, x the cup and V the covariance of what is not known of fixed and random effects, one more cup takes (c\u2032Vx)\u00b2 / (\u03c3\u00b2 + x\u2032Vx) from the variance of the answer, whatever it will taste of";

    /// <summary>Put to the cups, or why it can't be.</summary>
    /// <param name="log">The log.</param>
    /// <param name="question">The question; names that are left out are chosen by the cups.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="mostDraws">The most draws of the truth by which the naming of the best is judged; nothing for as many as a reader gets.</param>
    public static (BrewInquiry? Inquiry, Support Support) Of(TastingLog log, BrewQuestion question, ulong seed, int? mostDraws) => question.Match(
        better => MethodInquiry.Of(log, better, seed),
        best => CoffeeInquiry.Of(log, best, seed, mostDraws),
        howGood => CoffeeInquiry.Of(log, howGood, seed));

    /// <summary>The cups that could be brewed of which the model can say anything.</summary>
    public IEnumerable<(BrewOption Option, FurtherFunction Cup)> Possible(IEnumerable<BrewOption> options)
    {
        foreach (var option in options)
        {
            if (OfCup(option.Planned) is { } cup)
                yield return (option, cup);
        }
    }
}
