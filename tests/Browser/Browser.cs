using System.Diagnostics;
using System.Net.WebSockets;
using System.Text.Json.Nodes;

namespace TastingKit.Tests.Browsing;

/// <summary>A headless Chromium without a network but for this machine itself, spoken to by the DevTools protocol.</summary>
internal sealed class Browser : IAsyncDisposable
{
    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome"];
    private static readonly TimeSpan StartLimit = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly DirectoryInfo _profile;
    private readonly DevTools _tools;

    private Browser(Process process, DirectoryInfo profile, DevTools tools)
    {
        _process = process;
        _profile = profile;
        _tools = tools;
    }

    internal static string? FindExecutable() =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .SelectMany(folder => Names.Select(name => Path.Combine(folder, name)))
        .FirstOrDefault(File.Exists);

    internal static async Task<Browser> StartAsync()
    {
        var executable = FindExecutable() ?? throw new InvalidOperationException("No Chromium was found on the PATH.");
        var profile = Directory.CreateTempSubdirectory("tastingkit-browser-");
        var process = Process.Start(new ProcessStartInfo(
            executable,
            [
                "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run", "--remote-debugging-port=0",
                "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1", "--disable-background-networking", "--disable-component-update", "--disable-sync",
                $"--user-data-dir={profile.FullName}", "about:blank",
            ])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        try
        {
            return new Browser(process, profile, new DevTools(await ConnectAsync(process)));
        }
        catch
        {
            process.Kill(entireProcessTree: true);
            process.Dispose();
            throw;
        }
    }

    /// <summary>Opens a file, or an address, and gives back its page once it has loaded.</summary>
    internal async Task<BrowserPage> OpenAsync(string path, int width = 1280, int height = 900, bool dark = false)
    {
        var target = await _tools.CallAsync("Target.createTarget", new JsonObject { ["url"] = "about:blank" });
        var attached = await _tools.CallAsync(
            "Target.attachToTarget", new JsonObject { ["targetId"] = target["targetId"]!.DeepClone(), ["flatten"] = true });
        var page = new BrowserPage(_tools, (string)attached["sessionId"]!);
        await page.OpenAsync(AddressOf(path), width, height, dark);
        return page;
    }

    /// <summary>A file's name may hold what means something in an address.</summary>
    private static Uri AddressOf(string path) =>
        new(Path.IsPathRooted(path) ? "file://" + string.Join('/', path.Split(Path.DirectorySeparatorChar).Select(Uri.EscapeDataString)) : path);

    private static async Task<ClientWebSocket> ConnectAsync(Process process)
    {
        const string Announcement = "DevTools listening on ";
        using var limit = new CancellationTokenSource(StartLimit);
        while (await process.StandardError.ReadLineAsync(limit.Token) is { } line)
        {
            if (!line.StartsWith(Announcement, StringComparison.Ordinal))
                continue;
            var socket = new ClientWebSocket();
            await socket.ConnectAsync(new Uri(line[Announcement.Length..]), limit.Token);
            // The pipe is read on, lest it fills and the browser waits for ever.
            _ = process.StandardError.ReadToEndAsync(CancellationToken.None);
            return socket;
        }

        throw new InvalidOperationException("Chromium ended before it could be spoken to.");
    }

    public async ValueTask DisposeAsync()
    {
        await _tools.DisposeAsync();
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
        _process.Dispose();
        try
        {
            _profile.Delete(recursive: true);
        }
        catch (IOException)
        {
            // The last of the browser's own processes may still hold a file; the folder is a temporary one.
        }
    }
}
