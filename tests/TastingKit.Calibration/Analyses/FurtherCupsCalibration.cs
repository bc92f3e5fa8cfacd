using TastingKit.Statistics;

namespace TastingKit.Calibration;

/// <summary>
/// The further cups and coffees that an undecided year asks for are brewed, and asked again: the difference must be told in 70 to 90 % of
/// such years. Only years of two brewers whose difference is exactly the margin say anything of it.
/// </summary>
public sealed class FurtherCupsCalibration(Func<TastingLog, MethodEffects> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => "further cups";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        if (year.Truth.Settings.Method.Brewers is not [var one, var other])
            return;
        var effects = analyse(year.Log);
        if (Math.Abs(Math.Abs(one.Effect - other.Effect) - effects.Margin) > 1e-9 || effects.Contrasts is not [var contrast])
            return;
        if (contrast.Further is not FurtherCups.Needed needed)
        {
            record.Cautions.Add($"{Name}: none asked for");
            return;
        }

        var better = one.Effect > other.Effect ? one.Name : other.Name;
        record.Power($"{Name}: told with the coffees asked for", IsTold(analyse(WithCoffees(year, needed.Coffees, needed.CupsACoffee)), better));
        if (needed.SameCoffees is { } cups)
            record.Power($"{Name}: told with the cups asked for", IsTold(analyse(WithCups(year, cups)), better));
        else
            record.Cautions.Add($"{Name}: no number of cups would do");
    }

    private static bool IsTold(MethodEffects effects, string better) =>
        effects.Contrasts is [var contrast] && contrast.First == better && contrast.Answer.Direction == Direction.Higher;

    private static TastingLog WithCoffees(SimulatedYear year, int coffees, int cupsACoffee)
    {
        var random = new RandomStream(year.Truth.Seed).Split(101);
        var settings = year.Truth.Settings;
        var bags = new List<Bag>();
        var cups = new List<Tasting>();
        var template = year.Log.Tastings.First(t => t.RecipeFrom == SimulatedMethod.House && t.Purpose == Purpose.Verdict);
        for (var i = 0; i < coffees; i++)
        {
            var like = year.Truth.Coffees[random.NextInt32(year.Truth.Coffees.Count)];
            var bag = template.Bag with { Id = $"F{i:000}", Coffee = template.Bag.Coffee with { Id = $"F{i:000}", Name = null, Process = like.Process } };
            bags.Add(bag);
            var quality = Math.Sqrt(Squared(settings.Quality.LotStandardDeviation) + Squared(settings.Quality.BagStandardDeviation)) * random.NextNormal();
            double[] own = [.. settings.Method.Brewers.Select(brewer => brewer.Effect + (settings.Method.BrewerByCoffeeStandardDeviation * random.NextNormal()))];
            for (var cup = 0; cup < cupsACoffee; cup++)
                cups.Add(Cup(year, template with { Bag = bag }, cup % 2, settings.Taster.Mean + quality + own[cup % 2] + like.Bags[0].RestEffect(RestOf(template)), cups.Count, random));
        }

        return Enlarged(year.Log, bags, cups);
    }

    private static TastingLog WithCups(SimulatedYear year, int count)
    {
        var random = new RandomStream(year.Truth.Seed).Split(102);
        var both = year.Log.Tastings.Where(t => t is { Purpose: Purpose.Verdict, Failed: false, Score: not null }).GroupBy(t => t.Bag.Coffee.Id)
            .Where(coffee => coffee.Select(t => t.Brewer).Distinct().Count() == 2).OrderBy(coffee => coffee.Key, StringComparer.Ordinal).ToArray();
        var cups = new List<Tasting>();
        for (var i = 0; i < count; i++)
        {
            var coffee = both[i / 2 % both.Length];
            var template = coffee.First() with { RecipeFrom = SimulatedMethod.House, Recipe = "house 1:16", WaterCelsius = 94, WaterGrams = 240, DoseGrams = 15 };
            var brewer = year.Truth.Settings.Method.Brewers[i % 2].Name;
            cups.Add(Cup(year, template, i % 2, year.Truth.ExpectedScore(coffee.Key, brewer, SimulatedMethod.House, RestOf(template)), i, random));
        }

        return Enlarged(year.Log, [], cups);
    }

    /// <summary>A cup like another, but for its brewer, in a session of its own.</summary>
    private static Tasting Cup(SimulatedYear year, Tasting like, int brewer, double expected, int number, RandomStream random)
    {
        var taster = year.Truth.Settings.Taster;
        var score = expected + (taster.SessionStandardDeviation * random.NextNormal()) + (taster.RepeatStandardDeviation * random.NextNormal());
        return like with
        {
            Id = $"f{number:0000}",
            Session = $"further {number:0000}",
            Position = 1,
            Brewer = year.Truth.Settings.Method.Brewers[brewer].Name,
            Score = score,
        };
    }

    private static int RestOf(Tasting cup) => cup.RestDays ?? throw new InvalidOperationException("Every simulated cup has a rest.");

    private static TastingLog Enlarged(TastingLog log, IReadOnlyList<Bag> bags, IReadOnlyList<Tasting> cups) =>
        new(new LogContents { Name = log.Name, Bags = [.. log.Bags, .. bags], Tastings = [.. log.Tastings, .. cups], Scales = [log.ScaleOf(TastingAttribute.Score)] });

    private static double Squared(double value) => value * value;
}
