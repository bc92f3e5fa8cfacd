using System.Runtime.InteropServices;

namespace TastingKit.Writing;

/// <summary>
/// Has the disk take down which names a folder holds. A file that was flushed and renamed is whole, but where power fails at once the folder
/// may still have its old name.
/// </summary>
internal static class FolderFlush
{
    /// <summary>Flushes a folder.</summary>
    /// <param name="folder">The folder.</param>
    /// <returns>Whether the disk has it for certain. Windows keeps names in order by itself and lets no program flush a folder, nor do some shared disks: then not.</returns>
    public static bool Of(string folder)
    {
        if (OperatingSystem.IsWindows())
            return false;
        var descriptor = Open(folder, 0);
        if (descriptor < 0)
            return false;
        var done = Flush(descriptor) == 0;
        return Close(descriptor) == 0 && done;
    }

    // .NET opens no folders.
    [DllImport("libc", EntryPoint = "open")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int onlyToRead);

    [DllImport("libc", EntryPoint = "fsync")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Flush(int descriptor);

    [DllImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int descriptor);
}
