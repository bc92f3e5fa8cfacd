namespace TastingKit;

/// <summary>A file of the rendering that is kept in the assembly.</summary>
internal static class RenderingAsset
{
    internal static string Read(string name)
    {
        using var stream = typeof(RenderingAsset).Assembly.GetManifestResourceStream("TastingKit.Rendering." + name)
            ?? throw new InvalidOperationException($"{name} is missing from the assembly.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
