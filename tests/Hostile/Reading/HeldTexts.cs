namespace TastingKit.Tests.Hostility;

/// <summary>Where a log that was read holds the texts of <see cref="HostileLog"/>.</summary>
internal static class HeldTexts
{
    /// <summary>The texts of a place as the log that was read holds them.</summary>
    internal static IReadOnlyList<string> Of(TastingLog log, string place) =>
    [
        .. (place switch
        {
            "coffee" => log.Coffees.Select(coffee => coffee.Name),
            "roaster" => log.Coffees.Select(coffee => coffee.Roaster),
            "process" => log.Coffees.Select(coffee => coffee.Process),
            "country" => log.Coffees.SelectMany(coffee => coffee.Countries),
            "region" => log.Coffees.Select(coffee => coffee.Region),
            "brewer" => log.Tastings.Select(cup => cup.Brewer),
            "recipe" => log.Tastings.Select(cup => cup.Recipe),
            "note" => log.Tastings.SelectMany(cup => cup.Notes),
            "remark" => log.Tastings.Select(cup => cup.Remark),
            "attribute" => log.Attributes.Select(attribute => attribute.Name).Where(name => name.EndsWith(" attribute", StringComparison.Ordinal)),
            "change" => log.Changes.SelectMany(change => new[] { change.From, change.To }),
            _ => throw new ArgumentException($"The log has no place '{place}'. Expected one of {string.Join(", ", HostileLog.Places)}.", nameof(place)),
        }).OfType<string>().Distinct(),
    ];
}
