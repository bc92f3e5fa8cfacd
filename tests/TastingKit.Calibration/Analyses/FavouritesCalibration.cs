namespace TastingKit.Calibration;

/// <summary>
/// Favourites: each coffee's expected score under the analysis's own standard brew, its place, and its probability of being among
/// the best and of being the best, against the coffees that the analysis ranks.
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
            record.Cover($"{Name}: expected score, all coffees", favourite.Estimate, favourite.Low, favourite.High, truth[i]);
            if (truth.Length > First && favourite.Rank <= First)
                record.Cover($"{Name}: expected score, first ten", favourite.Estimate, favourite.Low, favourite.High, truth[i]);
            record.Predict($"{Name}: among the best", favourite.TopProbability, place[i] <= favourites.TopCount);
            record.Predict($"{Name}: the best", favourite.BestProbability, place[i] == 1);
        }
    }
}
