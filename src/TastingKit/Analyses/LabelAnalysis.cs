using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="LabelEffect"/>.</summary>
internal static class LabelAnalysis
{
    private const string Seen = "label seen";
    private const int FewestPairs = 8;
    private const int FewestOfASide = 4;
    private const int FewestRoastersOfACountry = 3;
    private const int FewestOutside = 10;
    private const int FewestDays = 90;

    private const string Protocol =
        "Brew one bag twice alike for one sitting, with cups of other bags beside it: someone else codes one cup (blind_to label) and leaves the other its label, and lot decides the order, which goes into position; twenty such pairs over the year, of many roasters, tell half a point.";

    private const string Model =
        "paired: difference of a cup whose label was seen and a coded one of the same bag, day, sitting, brewer and whole recipe; fixed: places that one came later";

    private const string Estimator =
        "least squares on pairs, errors clustered (CR2, degrees of freedom of Bell and McCaffrey); each premium in a model of its own beside the order, held over all that were asked by Holm's rule; "
        + "a roaster's reputation is the mean of its other coffees alone, from sighted cups outside pairs; outside pairs a linear mixed model by restricted maximum likelihood";

    public static LabelEffect Of(TastingLog log, TastingAttribute attribute)
    {
        var scored = ScoredCups.Of(log, attribute);
        var scale = log.ScaleOf(attribute);
        var pairs = LabelPairs.Of(scored.Cups, attribute);
        var computation = new Computation(Model, Estimator, pairs.Sum(pair => pair.Cups), scored.LeftOut);
        if (pairs.Count < FewestPairs)
        {
            var hidden = scored.Cups.Count(LabelPair.IsHidden);
            var none = new PartAnswer.Refused($"{NumberText.Count(pairs.Count, "pair")} of a coded cup and one whose label was seen, where {FewestPairs} are the fewest.", Protocol);
            return new LabelEffect(attribute, scale, pairs, none, none, [], none, [], computation, Support.Missing(
                $"What seeing the label does can\u2019t be told: of {NumberText.Count(scored.Cups.Count, "scored cup")} {hidden} {(hidden == 1 ? "was" : "were")} coded, and {NumberText.Count(pairs.Count, "pair")} of a coded cup and one whose label was seen {(pairs.Count == 1 ? "is" : "are")} of one bag, brewed alike, at one sitting, where {FewestPairs} are the fewest.",
                Protocol));
        }

        var model = new LabelModel(pairs);
        var average = model.Average();
        var order = model.Order() is { } place
            ? Answer(place, pairs, "pair")
            : new PartAnswer.Refused("What a place later does can\u2019t be told: the cups whose label was seen always came on the same side.", "Let lot decide which is tasted first.");
        return new LabelEffect(
            attribute, scale, pairs, Answer(average, pairs, "pair"), order, Premiums(model), Outside(log, scored.Cups, pairs, attribute),
            [.. LabelCautions.Of(model), .. FromCups(log, scored.Cups, attribute)], computation with { Estimator = $"{Estimator}; clustered by {model.ClusteredBy}" }, Support.Given);
    }

    private static PartAnswer Answer(ClusteredEstimate estimate, IReadOnlyList<LabelPair> pairs, string noun) => new PartAnswer.Estimated(
        estimate.Value, estimate.Low, estimate.High, pairs.Sum(pair => pair.Cups), $"{NumberText.Count(pairs.Count, noun)} of {NumberText.Count(pairs.Select(pair => pair.Bag.Coffee.Id).Distinct().Count(), "coffee")}, {NumberText.Count(Roasters(pairs), "roaster")}");

    private static int Roasters(IReadOnlyList<LabelPair> pairs) => pairs.Select(pair => pair.Bag.Coffee.Roaster?.ToLowerInvariant()).OfType<string>().Distinct().Count();

    private static LabelPremium[] Premiums(LabelModel model)
    {
        var pairs = model.Pairs;
        var currency = pairs.Select(pair => pair.Bag.Currency).OfType<string>().GroupBy(name => name).MaxBy(group => group.Count())?.Key;
        var asked = new List<(string What, string Per, PartAnswer Answer, double P)>
        {
            Slope("the roaster\u2019s reputation", "point that its other coffees score", pair => pair.Reputation, "Note the roaster of every bag, and taste several coffees of each with the label seen."),
            Slope("the price", $"{currency ?? "unit of currency"} a 100 g", pair => pair.Bag.Currency == currency ? pair.PriceOfHundredGrams : null, "Note price, currency and net weight of the bags."),
            Contrast("not paid for against bought", pair => pair.IsBought is { } bought ? !bought : null, "Note how each bag was obtained, and pair cups of both kinds."),
        };
        asked.AddRange(pairs.Where(pair => Country(pair) is not null).GroupBy(pair => Country(pair)!)
            .Where(country => country.Select(pair => pair.Bag.Coffee.Roaster ?? pair.Bag.Coffee.Id).Distinct().Count() >= FewestRoastersOfACountry)
            .Where(country => country.Count() >= FewestOfASide && pairs.Count(pair => Country(pair) is not null) - country.Count() >= FewestOfASide)
            .Select(country => country.Key).Order(StringComparer.Ordinal)
            .Select(country => Contrast($"{country}{LabelPremium.OfACountry}", pair => Country(pair) is { } own ? own == country : null, "")));
        if (pairs[^1].TastedOn.DayNumber - pairs[0].TastedOn.DayNumber >= FewestDays)
            asked.Add(Slope("the course over the year", "year", pair => pair.TastedOn.DayNumber / Covariate.DaysAYear, ""));
        else
            asked.Add(("the course over the year", "year", new PartAnswer.Refused($"The pairs lie within {FewestDays} days.", "Spread pairs over the year."), 1));
        var answered = asked.Where(one => one.Answer is PartAnswer.Estimated).ToArray();
        var adjusted = answered.Length == 0 ? [] : MultipleTesting.Holm([.. answered.Select(one => one.P)]);
        return [.. asked.Select(one => new LabelPremium(one.What, one.Per, one.Answer, one.P, Array.IndexOf(answered, one) is var at and >= 0 ? adjusted[at] : 1))];

        (string, string, PartAnswer, double) Slope(string what, string per, Func<LabelPair, double?> valueOf, string whatToLog) => Ask(what, per, valueOf, 3, whatToLog);

        (string, string, PartAnswer, double) Contrast(string what, Func<LabelPair, bool?> isOne, string whatToLog)
        {
            var (yes, no) = (pairs.Count(pair => isOne(pair) == true), pairs.Count(pair => isOne(pair) == false));
            return yes < FewestOfASide || no < FewestOfASide
                ? (what, "pair", new PartAnswer.Refused($"{NumberText.Count(yes, "pair")} against {no}, where {FewestOfASide} of each are the fewest.", whatToLog), 1)
                : Ask(what, "pair", pair => isOne(pair) is { } one ? (one ? 1 : 0) : null, 2, whatToLog);
        }

        (string, string, PartAnswer, double) Ask(string what, string per, Func<LabelPair, double?> valueOf, int fewestValues, string whatToLog)
        {
            var known = model.Of(pair => valueOf(pair) is not null);
            double[] values = [.. known.Pairs.Select(pair => valueOf(pair)!.Value)];
            if (values.Length < FewestPairs || values.Distinct().Count() < fewestValues || known.Premium(values) is not { } estimate)
                return (what, per, new PartAnswer.Refused($"It is known of {NumberText.Count(values.Length, "pair")} with {NumberText.Count(values.Distinct().Count(), "value")}, which do not tell it.", whatToLog), 1);
            return (what, per, Answer(estimate, known.Pairs, "pair"), StudentsT.TwoSidedTail(estimate.Value / estimate.StandardError, estimate.DegreesOfFreedom));
        }
    }

    private static string? Country(LabelPair pair) => pair.Bag.Coffee.Countries is [var one] ? one : null;

    /// <summary>Cups outside pairs, at equal coffee and brew as far as a model can make them so.</summary>
    private static PartAnswer Outside(TastingLog log, IReadOnlyList<Tasting> cups, IReadOnlyList<LabelPair> pairs, TastingAttribute attribute)
    {
        var paired = pairs.Select(pair => (pair.Bag.Id, pair.TastedOn)).ToHashSet();
        Tasting[] outside = [.. cups.Where(cup => !paired.Contains((cup.Bag.Id, cup.TastedOn)))];
        var hidden = outside.Count(LabelPair.IsHidden);
        if (hidden < FewestOutside || outside.Length - hidden < FewestOutside)
            return new PartAnswer.Refused($"Outside pairs {NumberText.Count(hidden, "cup was", "cups were")} coded.", "Nothing: pairs tell it better.");
        if (CupModel(log, outside, attribute) is not { } fit || !fit.FixedEffects.Any(effect => effect.Name == Seen))
            return new PartAnswer.Refused("Outside pairs the brews settle which cups were coded.", "Nothing: pairs tell it better.");
        var estimate = fit.Estimate(fit.FixedEffect(Seen));
        return new PartAnswer.Estimated(estimate.Value, estimate.Low, estimate.High, outside.Length, $"{hidden} coded and {outside.Length - hidden} sighted cups outside pairs");
    }

    /// <summary>A score that is drawn to its bag's last one makes the cups of a pair alike, and hides what the label does; many sessions are not allowed for outside pairs.</summary>
    private static IEnumerable<Caution> FromCups(TastingLog log, IReadOnlyList<Tasting> cups, TastingAttribute attribute) =>
        CupModel(log, cups, attribute) is { } fit
            ? new[] { ScoreCautions.HangTogether(fit, cups, TastingLog.DefaultSeed), ScoreColumns.Of(cups, attribute).WithoutManySessions().SessionsLeftOut }.OfType<Caution>()
            : [];

    /// <summary>Single cups by their brew, their bag and whether the label was seen.</summary>
    private static LinearMixedModelFit? CupModel(TastingLog log, IReadOnlyList<Tasting> cups, TastingAttribute attribute)
    {
        var columns = ScoreColumns.Of(cups, attribute).WithoutManySessions();
        var design = columns.AddBrewTo(ModelDesign.For(attribute.Name, columns.Scores).WithFixed(new NumericColumn(Seen, cups.Select(cup => LabelPair.IsHidden(cup) ? 0.0 : 1).ToArray())));
        if (cups.Select(cup => cup.Bag.Id).Distinct().Count() is var bags && bags > 1 && bags < cups.Count)
            design = design.WithRandomIntercept(CategoricalColumn.From(Factor.Bag.Name, [.. cups.Select(cup => cup.Bag.Id)]));
        return ScoreFit.Of(design, log.Watch);
    }
}
