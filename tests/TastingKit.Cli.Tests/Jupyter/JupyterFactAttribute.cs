using TastingKit.Tests.Browsing;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>
/// A test that needs Jupyter's notebook and nbconvert, and Chromium. Without them it is skipped and says so; where
/// <c>TASTINGKIT_REQUIRE_JUPYTER</c> is set, as in CI, it fails instead.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class JupyterFactAttribute : FactAttribute
{
    public JupyterFactAttribute() => Skip = JupyterPrograms.Missing;
}

/// <summary>The same for a test with data.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class JupyterTheoryAttribute : TheoryAttribute
{
    public JupyterTheoryAttribute() => Skip = JupyterPrograms.Missing;
}

/// <summary>What these tests need beside the kit.</summary>
internal static class JupyterPrograms
{
    private static readonly string[] Names = ["jupyter", "jupyter-notebook", "jupyter-nbconvert"];

    /// <summary>What is missing, in words; <see langword="null"/> if nothing is, or nothing may be.</summary>
    internal static string? Missing
    {
        get
        {
            if (Environment.GetEnvironmentVariable("TASTINGKIT_REQUIRE_JUPYTER") is not null)
                return null;
            var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
            var missing = Names.Where(name => !folders.Any(folder => File.Exists(Path.Combine(folder, name)))).ToList();
            if (Browser.FindExecutable() is null)
                missing.Add("chromium");
            return missing.Count == 0 ? null : $"Not found on the PATH: {string.Join(", ", missing)}.";
        }
    }
}
