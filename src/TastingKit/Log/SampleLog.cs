namespace TastingKit;

/// <summary>The log that notebooks and scripts are about when no other is given.</summary>
public static class SampleLog
{
    /// <summary>The name of its folder.</summary>
    public const string FolderName = "sample-data";

    /// <summary>The folder of that name in the working directory or in the nearest one above it.</summary>
    /// <exception cref="DirectoryNotFoundException">There is none.</exception>
    public static string FindFolder()
    {
        for (var folder = new DirectoryInfo(Directory.GetCurrentDirectory()); folder is not null; folder = folder.Parent)
        {
            var sample = Path.Combine(folder.FullName, FolderName);
            if (Directory.Exists(sample))
                return sample;
        }

        throw new DirectoryNotFoundException($"No log was given, and neither the working directory nor one above it holds the folder '{FolderName}'.");
    }
}
