namespace TastingKit;

/// <summary>One brewer of a simulated year.</summary>
/// <param name="Name">Its name in the log, by generic kind.</param>
/// <param name="Effect">Points it adds to a cup of an average coffee; only differences between brewers matter.</param>
/// <param name="Share">How often it is taken, relative to the others; positive.</param>
public sealed record SimulatedBrewer(string Name, double Effect, double Share);

/// <summary>What brewer and recipe do to the score, in points, and how often each is used.</summary>
public sealed record SimulatedMethod
{
    /// <summary>The name of the taster's own recipe in <c>recipe_from</c>.</summary>
    public const string House = "house";

    /// <summary>The name of the roaster's own recipe in <c>recipe_from</c>.</summary>
    public const string Roaster = "roaster";

    /// <summary>The brewers, with unlike names.</summary>
    public IReadOnlyList<SimulatedBrewer> Brewers { get; init; } =
    [
        new("cone dripper", 0.0, 0.40),
        new("flat-bed dripper", 0.20, 0.30),
        new("thick-paper carafe", -0.15, 0.15),
        new("steep-and-release", -0.05, 0.15),
    ];

    /// <summary>Standard deviation of a brewer's deviation by base process, drawn anew each year.</summary>
    public double BrewerByProcessStandardDeviation { get; init; } = 0.12;

    /// <summary>Standard deviation of a brewer's deviation by coffee.</summary>
    public double BrewerByCoffeeStandardDeviation { get; init; } = 0.10;

    /// <summary>Points by which the roaster's own recipe differs from the house recipe for an average coffee.</summary>
    public double RoasterRecipeEffect { get; init; } = -0.10;

    /// <summary>Standard deviation of the recipe effect's deviation by base process, drawn anew each year.</summary>
    public double RecipeByProcessStandardDeviation { get; init; } = 0.08;

    /// <summary>Standard deviation of the recipe effect's deviation by coffee.</summary>
    public double RecipeByCoffeeStandardDeviation { get; init; } = 0.08;

    /// <summary>Share of cups brewed by the roaster's own recipe; 0 to 1.</summary>
    public double RoasterRecipeShare { get; init; } = 0.30;

    /// <summary>Points a degree Celsius of brewing water above 94, apart from the recipe effect.</summary>
    public double EffectPerDegree { get; init; }

    /// <summary>Points for each gram of water a gram of coffee above 16, apart from the recipe effect.</summary>
    public double EffectPerRatioUnit { get; init; }

    /// <summary>Points that a recipe's water temperature and ratio add to what those of the house recipe make.</summary>
    internal double EffectOf(SimulatedRecipe recipe) =>
        EffectPerDegree * (recipe.Celsius - SimulatedRecipe.House.Celsius) + EffectPerRatioUnit * (recipe.Ratio - SimulatedRecipe.House.Ratio);

    internal void Validate()
    {
        if (Brewers.Count == 0)
            throw new ArgumentException("The setting Brewers is empty; a simulated year needs at least one brewer.", nameof(Brewers));
        if (Brewers.DistinctBy(brewer => brewer.Name).Count() != Brewers.Count)
            throw new ArgumentException("Two brewers share a name; each needs its own.", nameof(Brewers));
        foreach (var brewer in Brewers)
        {
            SimulationSettings.Finite(brewer.Effect, $"effect of {brewer.Name}");
            if (!(brewer.Share > 0) || !double.IsFinite(brewer.Share))
                throw new ArgumentException($"The share of {brewer.Name} is {brewer.Share}; it must be positive.", nameof(Brewers));
        }

        SimulationSettings.AtLeast(BrewerByProcessStandardDeviation, 0, nameof(BrewerByProcessStandardDeviation));
        SimulationSettings.AtLeast(BrewerByCoffeeStandardDeviation, 0, nameof(BrewerByCoffeeStandardDeviation));
        SimulationSettings.Finite(RoasterRecipeEffect, nameof(RoasterRecipeEffect));
        SimulationSettings.AtLeast(RecipeByProcessStandardDeviation, 0, nameof(RecipeByProcessStandardDeviation));
        SimulationSettings.AtLeast(RecipeByCoffeeStandardDeviation, 0, nameof(RecipeByCoffeeStandardDeviation));
        SimulationSettings.Between(RoasterRecipeShare, 0, 1, nameof(RoasterRecipeShare));
        SimulationSettings.Finite(EffectPerDegree, nameof(EffectPerDegree));
        SimulationSettings.Finite(EffectPerRatioUnit, nameof(EffectPerRatioUnit));
    }
}
