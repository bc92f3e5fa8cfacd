namespace TastingKit.Calibration;

/// <summary>
/// Favourites: each coffee's expected score under the analysis's own standard brew, its place, and its probability of being among
/// the best and of being the best, against the coffees that the analysis ranks; and what a coffee of each country, process, fermentation and roaster is
/// expected to score, in all else like the average of these coffees, with the probability that it is the best of its sort. A fermentation adds the same
/// in every year, so that which is the best is no matter of chance there, and is not asked.
/// </summary>
public sealed class FavouritesCalibration(Func<TastingLog, Favourites> analyse) : ICalibratedAnalysis
{
    private const int First = 10;

    /// <inheritdoc/>
    public string Name => "favourites";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var favourites = analyse(year.Log);
        foreach (var caution in favourites.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (!favourites.Support.IsSupported)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        if (favourites.StandardBrew is not { Brewer: { } brewer, RecipeFrom: { } recipe, RestDays: { } rest })
        {
            // Of a few dozen cups the rest can't be adjusted for, so that there is no one true score to hold a coffee against.
            record.Cautions.Add($"{Name}: no full standard brew");
            return;
        }

        var truth = favourites.Coffees.Select(favourite => year.Truth.ExpectedScore(favourite.Coffee.Id, brewer, recipe, rest)).ToArray();
        var place = new int[truth.Length];
        for (var i = 0; i < truth.Length; i++)
            place[i] = 1 + truth.Count(other => other > truth[i]);

        foreach (var (i, favourite) in favourites.Coffees.Index())
        {
            Cover("all coffees", i, favourite);
            if (truth.Length > First && favourite.Rank <= First)
                Cover("first ten", i, favourite);
            record.Predict($"{Name}: among the best", favourite.TopProbability, place[i] <= favourites.TopCount);
            record.Predict($"{Name}: the best", favourite.BestProbability, place[i] == 1);
        }

        var cupOf = year.Log.Tastings.DistinctBy(cup => cup.Bag.Coffee.Id).ToDictionary(cup => cup.Bag.Coffee.Id, StringComparer.Ordinal);
        CoffeeTruth[] coffees = [.. favourites.Coffees.Select(favourite => year.Truth.CoffeeOf(favourite.Coffee.Id))];
        double OfProcess(CoffeeTruth coffee) => coffee.ProcessEffect + year.Truth.BrewerEffect(brewer, coffee.Process)
            + (recipe == SimulatedMethod.House ? 0 : year.Truth.RoasterRecipeEffect(coffee.Process)) + coffee.Bags.Average(bag => bag.RestEffect(rest));
        Kinds(Factor.Country, coffee => coffee.CountryEffect, true);
        Kinds(Factor.Process, OfProcess, true);
        Kinds(Factor.Roaster, coffee => coffee.RoasterEffect + (recipe == SimulatedMethod.House ? 0 : coffee.RoasterBrewingEffect), true);
        Kinds(Factor.Fermentation, coffee => coffee.FermentationEffect, false);

        void Cover(string which, int i, Favourite favourite)
        {
            record.Cover($"{Name}: expected score, {which}", favourite.Estimate, favourite.Low, favourite.High, truth[i]);
            record.Cover($"{Name}: place, {which}", favourite.Rank, favourite.RankLow, favourite.RankHigh, place[i]);
        }

        void Kinds(Factor factor, Func<CoffeeTruth, double> effectOf, bool isDrawn)
        {
            var others = truth.Zip(coffees, (score, coffee) => score - effectOf(coffee)).Average();
            var ofLevel = coffees.GroupBy(coffee => factor.LevelOf(cupOf[coffee.CoffeeId])).ToDictionary(level => level.Key, level => level.Average(effectOf), StringComparer.Ordinal);
            foreach (var group in favourites.By(factor).Groups)
            {
                record.Cover($"{Name}: expected score by {factor.Name}", group.Estimate, group.Low, group.High, others + ofLevel[group.Level]);
                if (isDrawn)
                    record.Predict($"{Name}: the best {factor.Name}", group.BestProbability, ofLevel[group.Level] == ofLevel.Values.Max());
            }
        }
    }
}
