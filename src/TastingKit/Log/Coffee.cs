namespace TastingKit;

/// <summary>One green lot. Bags bought again of the same lot share it.</summary>
/// <remarks>
/// Country, process, variety and roaster are in the vocabulary's form where it has one, and <see cref="AsWritten"/> keeps what the log has there;
/// all else is kept as written. A missing text is <see langword="null"/>, never an empty string.
/// </remarks>
public sealed record Coffee
{
    /// <summary>The lot's identifier: <c>coffee_id</c> of the log, or the bag's own identifier where that is empty.</summary>
    public required string Id { get; init; }

    /// <summary>The name on the bag.</summary>
    public string? Name { get; init; }

    /// <summary>Who roasted it.</summary>
    public string? Roaster { get; init; }

    /// <summary>Countries of origin in the order written; more than one for a blend, none where the log does not say.</summary>
    public IReadOnlyList<string> Countries { get; init; } = [];

    /// <summary>Region within the country.</summary>
    public string? Region { get; init; }

    /// <summary>Farm, station or cooperative.</summary>
    public string? Producer { get; init; }

    /// <summary>The lot's own name.</summary>
    public string? Lot { get; init; }

    /// <summary>Harvest as written, for example <c>2024/25</c>.</summary>
    public string? Harvest { get; init; }

    /// <summary>Botanical variety or varieties as written.</summary>
    public string? Variety { get; init; }

    /// <summary>Base process (washed, natural, honey, wet-hulled), apart from what was done in fermentation.</summary>
    public string? Process { get; init; }

    /// <summary>What was done in fermentation, for example <c>anaerobic</c>.</summary>
    public string? Fermentation { get; init; }

    /// <summary>What was added in processing, for example fruit.</summary>
    public string? Added { get; init; }

    /// <summary>Whether the coffee is decaffeinated; <see langword="null"/> where the log does not say.</summary>
    public bool? Decaf { get; init; }

    /// <summary>What the log has in the columns (by their canonical name) whose words were put into the vocabulary's form; empty for most coffees.</summary>
    public IReadOnlyDictionary<string, string> AsWritten { get; init; } = EmptyColumns.Instance;

    /// <summary>The text a reader knows the coffee by: its name with its roaster, or its identifier where it has no name.</summary>
    public string Label => (Name, Roaster) switch
    {
        (null, _) => Id,
        (_, null) => Name,
        _ => $"{Name} ({Roaster})",
    };
}
