using System.Globalization;

namespace TastingKit;

/// <summary>Something that sorts cups into groups: their country, their brewer, or any column of the log.</summary>
public sealed class Factor
{
    /// <summary>The level of cups for which the log does not say.</summary>
    public const string NotStated = "(not stated)";

    private readonly Func<Tasting, string?> _levelOf;

    private Factor(string name, Func<Tasting, string?> levelOf, bool isOfCoffee)
    {
        Name = name;
        IsOfCoffee = isOfCoffee;
        _levelOf = levelOf;
    }

    /// <summary>Country of origin; a coffee of several countries has a level of its own.</summary>
    public static Factor Country { get; } = new("country", t => t.Bag.Coffee.Countries switch
    {
        [] => null,
        [var only] => only,
        _ => "several countries",
    }, true);

    /// <summary>Base process.</summary>
    public static Factor Process { get; } = new("process", t => t.Bag.Coffee.Process, true);

    /// <summary>What was done in fermentation; a coffee without any has the level <c>none</c>.</summary>
    public static Factor Fermentation { get; } = new("fermentation", t => t.Bag.Coffee.Fermentation ?? "none", true);

    /// <summary>Roaster.</summary>
    public static Factor Roaster { get; } = new("roaster", t => t.Bag.Coffee.Roaster, true);

    /// <summary>Farm, station or cooperative.</summary>
    public static Factor Producer { get; } = new("producer", t => t.Bag.Coffee.Producer, true);

    /// <summary>Variety.</summary>
    public static Factor Variety { get; } = new("variety", t => t.Bag.Coffee.Variety, true);

    /// <summary>Coffee (green lot).</summary>
    public static Factor Coffee { get; } = new("coffee", t => t.Bag.Coffee.Id, true);

    /// <summary>Bag.</summary>
    public static Factor Bag { get; } = new("bag", t => t.Bag.Id, true);

    /// <summary>Roast level.</summary>
    public static Factor RoastLevel { get; } = new("roast level", t => t.Bag.RoastLevel, true);

    /// <summary>How the bag was obtained.</summary>
    public static Factor Obtained { get; } = new("obtained", t => t.Bag.Obtained, true);

    /// <summary>Brewer.</summary>
    public static Factor Brewer { get; } = new("brewer", t => t.Brewer, false);

    /// <summary>Filter.</summary>
    public static Factor Filter { get; } = new("filter", t => t.Filter, false);

    /// <summary>Grinder.</summary>
    public static Factor Grinder { get; } = new("grinder", t => t.Grinder, false);

    /// <summary>Brewing water.</summary>
    public static Factor Water { get; } = new("water", t => t.Water, false);

    /// <summary>Recipe by name.</summary>
    public static Factor Recipe { get; } = new("recipe", t => t.Recipe, false);

    /// <summary>Whose recipe: house, roaster or other.</summary>
    public static Factor RecipeFrom { get; } = new("recipe source", t => t.RecipeFrom, false);

    /// <summary>Taster.</summary>
    public static Factor Taster { get; } = new("taster", t => t.Taster, false);

    /// <summary>The factor's name in plain words.</summary>
    public string Name { get; }

    /// <summary>Whether the level belongs to the coffee or its bag, and so is the same for all its cups.</summary>
    public bool IsOfCoffee { get; }

    /// <summary>A column of <c>tastings.csv</c> that the kit has no name for.</summary>
    /// <param name="header">The column's header, as written.</param>
    public static Factor Column(string header)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(header);
        return new Factor(header, t => t.OtherColumns.GetValueOrDefault(header), false);
    }

    /// <summary>A column of <c>bags.csv</c> that the kit has no name for.</summary>
    /// <param name="header">The column's header, as written.</param>
    public static Factor BagColumn(string header)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(header);
        return new Factor(header, t => t.Bag.OtherColumns.GetValueOrDefault(header), true);
    }

    /// <summary>Each value of a number of the brew as a level of its own.</summary>
    /// <param name="covariate">The number.</param>
    public static Factor ValuesOf(Covariate covariate)
    {
        ArgumentNullException.ThrowIfNull(covariate);
        return new Factor(covariate.Name, t => covariate.ValueOf(t)?.ToString("0.######", CultureInfo.InvariantCulture), false);
    }

    /// <summary>Every combination of the levels of several factors, their levels parted by commas; a cup that lacks one of them has none.</summary>
    /// <param name="factors">At least two factors.</param>
    /// <exception cref="ArgumentException">There are fewer than two.</exception>
    public static Factor Combined(params IReadOnlyList<Factor> factors)
    {
        ArgumentNullException.ThrowIfNull(factors);
        if (factors.Count < 2)
            throw new ArgumentException("A combination needs at least two factors.", nameof(factors));
        Factor[] kept = [.. factors];
        return new Factor(
            string.Join(" and ", kept.Select(factor => factor.Name)),
            t => kept.Any(factor => factor._levelOf(t) is null) ? null : string.Join(", ", kept.Select(factor => factor._levelOf(t))),
            kept.All(factor => factor.IsOfCoffee));
    }

    /// <summary>The level of a cup; <see cref="NotStated"/> where the log does not say.</summary>
    public string LevelOf(Tasting tasting) => _levelOf(tasting) ?? NotStated;

    /// <summary>The factor's name.</summary>
    public override string ToString() => Name;
}
