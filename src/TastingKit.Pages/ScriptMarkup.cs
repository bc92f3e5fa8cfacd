namespace TastingKit.Pages;

/// <summary>Markup that a script shows as it stands; what is in it is the author's own doing.</summary>
/// <param name="Html">The HTML.</param>
public sealed record ScriptMarkup(string Html);
