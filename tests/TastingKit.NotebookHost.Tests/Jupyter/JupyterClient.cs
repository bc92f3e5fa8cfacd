using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using NetMQ;
using NetMQ.Sockets;
using TastingKit.NotebookHost.Jupyter;

namespace TastingKit.NotebookHost.Tests.Jupyter;

/// <summary>The host as a kernel, and Jupyter's side of its channels.</summary>
internal sealed class JupyterClient : IDisposable
{
    internal const string Key = "a key of the test";

    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-kernel-");
    private readonly DealerSocket _shell = new();
    private readonly DealerSocket _control = new();
    private readonly SubscriberSocket _published = new();
    private readonly RequestSocket _heartbeat = new();
    private readonly MessageSignature _signature = new(Key);

    /// <param name="parent">The process that plays Jupyter; 0 for none.</param>
    /// <param name="folder">Where the host lies; beside this program, unless said otherwise.</param>
    internal JupyterClient(int parent = 0, string? folder = null)
    {
        var ports = FreePorts(4);
        var connection = new JsonObject
        {
            ["transport"] = "tcp",
            ["ip"] = "127.0.0.1",
            ["shell_port"] = ports[0],
            ["control_port"] = ports[1],
            ["iopub_port"] = ports[2],
            ["hb_port"] = ports[3],
            ["stdin_port"] = 0,
            ["key"] = Key,
            ["signature_scheme"] = "hmac-sha256",
        };
        Process = StartHost(WriteConnection(connection.ToJsonString()), parent, folder);
        _published.SubscribeToAnyTopic();
        foreach (var (socket, port) in new NetMQSocket[] { _shell, _control, _published, _heartbeat }.Zip(ports))
            socket.Connect($"tcp://127.0.0.1:{port}");
        AwaitKernel();
    }

    internal Process Process { get; }

    internal static Process StartHost(string connectionFile, int parent = 0, string? folder = null)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(folder ?? AppContext.BaseDirectory, "TastingKit.NotebookHost.dll"), "jupyter", connectionFile])
        {
            RedirectStandardError = true,
        };
        if (parent != 0)
            start.Environment["JPY_PARENT_PID"] = parent.ToString(System.Globalization.CultureInfo.InvariantCulture);
        return Process.Start(start)!;
    }

    /// <summary>Sends a request and gives back its id.</summary>
    internal string Send(string type, JsonObject content, bool onControl = false, string key = Key)
    {
        var message = JupyterMessage.Create(type, "the test", null, [], content);
        (onControl ? _control : _shell).SendMultipartMessage(message.Write(key == Key ? _signature : new MessageSignature(key)));
        return (string)message.Header["msg_id"]!;
    }

    internal string SendCell(string code, bool stopOnError = true) =>
        Send("execute_request", new JsonObject { ["code"] = code, ["silent"] = false, ["stop_on_error"] = stopOnError });

    /// <summary>The next reply.</summary>
    internal JupyterMessage Reply(bool onControl = false) => Receive(onControl ? _control : _shell);

    /// <summary>Whether nothing arrives in that time.</summary>
    internal bool IsSilent(TimeSpan time)
    {
        NetMQMessage? message = null;
        return !_shell.TryReceiveMultipartMessage(time, ref message);
    }

    /// <summary>What is published for a request, up to its end, both states left out.</summary>
    internal IReadOnlyList<JupyterMessage> PublishedFor(string id)
    {
        var messages = new List<JupyterMessage>();
        while (true)
        {
            var message = Receive(_published);
            if ((string?)message.Parent["msg_id"] != id)
                continue;
            if (message.Type != "status")
                messages.Add(message);
            else if ((string?)message.Content["execution_state"] == "idle")
                return messages;
        }
    }

    /// <summary>Runs a cell to its end.</summary>
    internal (JsonObject Reply, IReadOnlyList<JupyterMessage> Published) Run(string code)
    {
        var id = SendCell(code);
        var published = PublishedFor(id);
        return (Reply().Content, published);
    }

    internal string Beat(string text)
    {
        _heartbeat.SendFrame(text);
        return _heartbeat.TryReceiveFrameString(Limit, out var echo) ? echo : throw new TimeoutException("No heartbeat.");
    }

    public void Dispose()
    {
        if (!Process.HasExited)
            Process.Kill(entireProcessTree: true);
        Process.Dispose();
        foreach (var socket in new NetMQSocket[] { _shell, _control, _published, _heartbeat })
            socket.Dispose();
        _folder.Delete(recursive: true);
    }

    /// <summary>A subscriber hears nothing of before its subscription arrived: ask until an answer is heard there too.</summary>
    private void AwaitKernel()
    {
        var waited = Stopwatch.StartNew();
        while (waited.Elapsed < Limit)
        {
            Send("kernel_info_request", []);
            Reply();
            NetMQMessage? heard = null;
            if (_published.TryReceiveMultipartMessage(TimeSpan.FromMilliseconds(200), ref heard))
                return;
        }

        throw new TimeoutException("The kernel publishes nothing.");
    }

    private JupyterMessage Receive(NetMQSocket socket)
    {
        NetMQMessage? frames = null;
        if (!socket.TryReceiveMultipartMessage(Limit, ref frames))
            throw new TimeoutException("The kernel did not answer.");
        return JupyterMessage.Read(frames!, _signature) ?? throw new InvalidOperationException("A message is not signed with the key.");
    }

    private string WriteConnection(string json)
    {
        var path = Path.Combine(_folder.FullName, "connection.json");
        File.WriteAllText(path, json, new UTF8Encoding(false));
        return path;
    }

    private static int[] FreePorts(int count)
    {
        var listeners = Enumerable.Range(0, count).Select(_ => new TcpListener(IPAddress.Loopback, 0)).ToArray();
        foreach (var listener in listeners)
            listener.Start();
        var ports = listeners.Select(listener => ((IPEndPoint)listener.LocalEndpoint).Port).ToArray();
        foreach (var listener in listeners)
            listener.Dispose();
        return ports;
    }
}
