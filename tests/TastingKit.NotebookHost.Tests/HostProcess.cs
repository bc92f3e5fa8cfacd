using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace TastingKit.NotebookHost.Tests;

/// <summary>The host as a process.</summary>
internal static class HostProcess
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(2);

    internal static Process Start()
    {
        var utf8 = new UTF8Encoding(false);
        return Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "TastingKit.NotebookHost.dll")])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = utf8,
            StandardOutputEncoding = utf8,
        })!;
    }

    internal static async Task SendAsync(Process host, RunRequest request)
    {
        await host.StandardInput.WriteLineAsync(JsonSerializer.Serialize(request, HostJson.Default.RunRequest));
        await host.StandardInput.FlushAsync();
    }

    internal static async Task<HostRun> RunAsync(RunRequest request)
    {
        using var host = Start();
        try
        {
            using var limit = new CancellationTokenSource(Limit);
            var complaints = host.StandardError.ReadToEndAsync(limit.Token);
            await SendAsync(host, request);
            var events = new List<HostEvent>();
            while (await host.StandardOutput.ReadLineAsync(limit.Token) is { } line)
                events.Add(JsonSerializer.Deserialize(line, HostJson.Default.HostEvent)!);
            await host.WaitForExitAsync(limit.Token);
            Assert.Equal("", await complaints);
            return new HostRun(host.ExitCode, events);
        }
        finally
        {
            if (!host.HasExited)
                host.Kill(entireProcessTree: true);
        }
    }
}
