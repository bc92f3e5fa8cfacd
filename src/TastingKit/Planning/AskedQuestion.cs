using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A question in the terms of a fitted model.</summary>
/// <param name="Words">The question, to stand behind <c>settles</c> or <c>asked:</c>.</param>
/// <param name="Functions">The one number asked, or the rivals' predicted scores where the best of them is asked.</param>
/// <param name="CoffeeIds">The coffees that it is about; empty for coffees like the log's.</param>
/// <param name="Method">The part of the brew that it is about; nothing where it is about coffees.</param>
/// <param name="Levels">The two levels of that part.</param>
internal sealed record AskedQuestion(
    string Words, IReadOnlyList<FurtherFunction> Functions, IReadOnlyList<string> CoffeeIds, Factor? Method, (string First, string Second) Levels)
{
    private const int MostRivals = 100;
    private const int DrawsOfRivals = 2000;
    private const double LeastChance = 0.01;

    public bool IsNaming => Functions.Count > 1;

    /// <summary>The question put to the model, or why it can't be.</summary>
    /// <param name="question">What was asked; names that are left out are chosen by the cups.</param>
    /// <param name="model">The model.</param>
    /// <param name="brew">The brew under which coffees are compared.</param>
    /// <param name="cups">The cups of the model.</param>
    /// <param name="heldAt">Draws at whose middle the variances are held.</param>
    /// <param name="seed">Seed of the draws by which rivals are found.</param>
    public static (AskedQuestion? Asked, Support Support) Of(
        BrewQuestion question, CoffeeModel model, StandardBrew brew, IReadOnlyList<Tasting> cups, JointDraws? heldAt, ulong seed) => question.Match(
        better => OfMethod(better, model, cups),
        best => OfBest(best, model, brew, cups, heldAt, seed),
        howGood =>
        {
            var id = howGood.CoffeeId ?? cups.MaxBy(cup => cup.TastedAt)!.Bag.Coffee.Id;
            var ofCoffee = CupsOf([id], cups)[0];
            return (new AskedQuestion($"how good {ofCoffee[0].Bag.Coffee.Label} is", [model.OfCoffee(brew, ofCoffee)], [id], null, default), Support.Given);
        });

    private static (AskedQuestion?, Support) OfMethod(BrewQuestion.Better better, CoffeeModel model, IReadOnlyList<Tasting> cups)
    {
        var factor = better.Factor;
        string[] known = [.. cups.Select(factor.LevelOf).Where(level => level != Factor.NotStated).GroupBy(level => level).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Key)];
        BrewShelf.Unknown(factor.Name, new[] { better.First, better.Second }.OfType<string>(), known);
        if (better.First is not null && better.First == better.Second)
            throw new ArgumentException($"A question of two needs two; found {factor.Name} '{better.First}' twice.", nameof(better));
        if (known.Length < 2)
        {
            return (null, Support.Missing(
                $"The scored cups name {(known.Length == 0 ? "no" : "only one")} {factor.Name}, so there is no difference to settle.", $"Brew the same coffee with two levels of {factor.Name}."));
        }

        var first = better.First ?? known.First(level => level != better.Second);
        var second = better.Second ?? known.First(level => level != first);
        var coffee = better.CoffeeId is { } id ? CupsOf([id], cups)[0][0] : null;
        var where = coffee is null ? "over coffees like the log\u2019s" : $"for {coffee.Bag.Coffee.Label}";
        return model.OfMethod(factor, first, second, coffee) is { } difference
            ? (new AskedQuestion($"{first} against {second} ({factor.Name}), {where}", [difference], coffee is null ? [] : [coffee.Bag.Coffee.Id], factor, (first, second)), Support.Given)
            : (null, Support.Missing(
                $"Whatever the {factor.Name} changed, something else of the brew changed with it, so that {first} and {second} can't be told apart by it.",
                $"Brew the same coffee with both and everything else alike."));
    }

    private static (AskedQuestion?, Support) OfBest(
        BrewQuestion.Best best, CoffeeModel model, StandardBrew brew, IReadOnlyList<Tasting> cups, JointDraws? heldAt, ulong seed)
    {
        if (best.CoffeeIds.Count == 1)
            throw new ArgumentException($"The best of one coffee is no question; found '{best.CoffeeIds[0]}' alone.", nameof(best));
        string[] ids = best.CoffeeIds.Count > 0 ? [.. best.CoffeeIds.Distinct()] : [.. cups.Select(cup => cup.Bag.Coffee.Id).Distinct()];
        var coffees = CupsOf(ids, cups);
        FurtherFunction[] functions = [.. coffees.Select(ofCoffee => model.OfCoffee(brew, ofCoffee))];
        if (best.CoffeeIds.Count == 0)
        {
            int[] highest = [.. Enumerable.Range(0, ids.Length).OrderByDescending(i => model.Fit.Value(functions[i].Known)).Take(MostRivals)];
            var observations = FurtherObservations.Of(model.Fit, [.. highest.Select(i => functions[i])], heldAt);
            var chances = BestNaming.Of(observations, [.. Enumerable.Range(0, highest.Length)], DrawsOfRivals, seed).ProbabilitiesOfBeingBest();
            int[] rivals = [.. Enumerable.Range(0, highest.Length).OrderByDescending(i => chances[i]).Where((i, place) => place < 2 || chances[i] >= LeastChance).Select(i => highest[i])];
            (ids, functions) = ([.. rivals.Select(i => ids[i])], [.. rivals.Select(i => functions[i])]);
        }

        return (new AskedQuestion(
            best.CoffeeIds.Count > 0 ? $"which of {ids.Length} coffees is the best" : $"which coffee is the best ({ids.Length} have a chance of 1 % or more)", functions, ids, null, default), Support.Given);
    }

    private static IReadOnlyList<IReadOnlyList<Tasting>> CupsOf(IReadOnlyList<string> ids, IReadOnlyList<Tasting> cups)
    {
        var byCoffee = cups.ToLookup(cup => cup.Bag.Coffee.Id);
        BrewShelf.Unknown("coffee with a scored cup", ids, [.. byCoffee.Select(g => g.Key)]);
        return [.. ids.Select(id => (IReadOnlyList<Tasting>)[.. byCoffee[id]])];
    }
}
