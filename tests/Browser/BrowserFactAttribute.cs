namespace TastingKit.Tests.Browsing;

/// <summary>
/// A test that needs Chromium. Without one it is skipped and says so; where <c>TASTINGKIT_REQUIRE_BROWSER</c> is set, as in
/// CI, it fails instead.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = WhySkipped;

    internal static string? WhySkipped => Browser.FindExecutable() is null && Environment.GetEnvironmentVariable("TASTINGKIT_REQUIRE_BROWSER") is null
        ? "No Chromium was found on the PATH (chromium, chromium-browser, google-chrome)."
        : null;
}

/// <summary>As <see cref="BrowserFactAttribute"/>, for a test of several cases.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = BrowserFactAttribute.WhySkipped;
}
