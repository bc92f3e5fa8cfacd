namespace TastingKit;

/// <summary>The one brew under which coffees are compared, so that a coffee is not judged by how it happened to be brewed.</summary>
/// <param name="Brewer">The brewer; <see langword="null"/> where the log names none.</param>
/// <param name="RecipeFrom">Whose recipe; <see langword="null"/> where the log names none.</param>
/// <param name="RestDays">Effective rest in days; <see langword="null"/> where too few cups have one.</param>
public sealed record StandardBrew(string? Brewer, string? RecipeFrom, int? RestDays)
{
    /// <summary>The brew in words, for example <c>cone dripper, house recipe, 18 days of rest</c>.</summary>
    public override string ToString()
    {
        string?[] parts =
        [
            Brewer,
            RecipeFrom is null ? null : $"{RecipeFrom} recipe",
            RestDays is { } days ? $"{days} days of rest" : null,
        ];
        var said = parts.OfType<string>().ToArray();
        return said.Length == 0 ? "as brewed" : string.Join(", ", said);
    }
}
