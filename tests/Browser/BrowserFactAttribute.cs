namespace TastingKit.Tests.Browsing;

/// <summary>
/// A test that needs Chromium. Without one it is skipped and says so; where <c>TASTINGKIT_REQUIRE_BROWSER</c> is set, as in
/// CI, it fails instead.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute()
    {
        if (Browser.FindExecutable() is null && Environment.GetEnvironmentVariable("TASTINGKIT_REQUIRE_BROWSER") is null)
            Skip = "No Chromium was found on the PATH (chromium, chromium-browser, google-chrome).";
    }
}
