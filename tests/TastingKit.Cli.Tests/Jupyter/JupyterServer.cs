using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>Jupyter's notebook server over a home's folder, on the loopback alone and behind a token.</summary>
internal sealed class JupyterServer : IDisposable
{
    private static readonly TimeSpan StartLimit = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly int _port;
    private readonly string _token;

    private JupyterServer(Process process, int port, string token)
    {
        _process = process;
        _port = port;
        _token = token;
    }

    /// <summary>What every address of the server begins with.</summary>
    internal string Address => $"//127.0.0.1:{_port}/";

    /// <exception cref="InvalidOperationException">It ended instead of starting; the message is what it said.</exception>
    internal static async Task<JupyterServer> StartAsync(JupyterHome home)
    {
        var port = FreePort();
        var token = RandomNumberGenerator.GetHexString(32);
        var process = home.Start(
            "jupyter", "notebook", "--no-browser", "--allow-root", "--ip=127.0.0.1", $"--port={port}", "--NotebookApp.port_retries=0", $"--NotebookApp.token={token}");
        _ = process.StandardOutput.ReadToEndAsync();
        var said = new List<string>();
        using var limit = new CancellationTokenSource(StartLimit);
        while (await process.StandardError.ReadLineAsync(limit.Token) is { } line)
        {
            said.Add(line);
            if (!line.Contains("is running at", StringComparison.Ordinal))
                continue;
            // The pipe is read on, lest it fills and the server waits for ever.
            _ = process.StandardError.ReadToEndAsync(CancellationToken.None);
            return new JupyterServer(process, port, token);
        }

        process.Dispose();
        throw new InvalidOperationException("Jupyter did not start: " + string.Join("\n", said));
    }

    internal string AddressOf(string notebook) => $"http:{Address}notebooks/{notebook}?token={_token}";

    public void Dispose()
    {
        _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
