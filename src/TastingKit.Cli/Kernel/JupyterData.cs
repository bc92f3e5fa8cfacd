namespace TastingKit.Cli;

/// <summary>Where Jupyter keeps what belongs to one person, kernels among it.</summary>
internal static class JupyterData
{
    private const string Variable = "JUPYTER_DATA_DIR";

    /// <summary>The folder, whether it is there or not: the one that the environment names, else the system's usual one.</summary>
    internal static string Folder()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } named)
            return Path.GetFullPath(named);
        var home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        if (OperatingSystem.IsWindows())
            return Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ApplicationData), "jupyter");
        if (OperatingSystem.IsMacOS())
            return Path.Combine(home, "Library", "Jupyter");
        return Environment.GetEnvironmentVariable("XDG_DATA_HOME") is { Length: > 0 } data
            ? Path.Combine(data, "jupyter")
            : Path.Combine(home, ".local", "share", "jupyter");
    }
}
