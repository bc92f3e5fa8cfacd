using NetMQ;
using NetMQ.Sockets;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>
/// The kernel's side of Jupyter's channels. The sockets belong to the one thread that runs <see cref="Run"/>; what other threads
/// send is queued for it, and keeps its order across channels. The channel on which a kernel asks for a line of input is not
/// opened: cells here ask for none.
/// </summary>
internal sealed class JupyterSockets : IDisposable
{
    private static readonly TimeSpan Linger = TimeSpan.FromSeconds(1);

    private readonly RouterSocket _shell = new();
    private readonly RouterSocket _control = new();
    private readonly PublisherSocket _publish = new();
    private readonly ResponseSocket _heartbeat = new();
    private readonly NetMQQueue<(IOutgoingSocket Socket, JupyterMessage? Message)> _outgoing = new();
    private readonly NetMQPoller _poller;
    private readonly MessageSignature _signature;

    /// <exception cref="NetMQException">A port is taken.</exception>
    internal JupyterSockets(ConnectionFile connection)
    {
        _signature = new MessageSignature(connection.Key);
        // Outputs are large, and none may be dropped for want of room in a queue.
        _publish.Options.SendHighWatermark = 0;
        foreach (var socket in new NetMQSocket[] { _shell, _control, _publish, _heartbeat })
            socket.Options.Linger = Linger;
        _shell.Bind(connection.AddressOf(connection.ShellPort));
        _control.Bind(connection.AddressOf(connection.ControlPort));
        _publish.Bind(connection.AddressOf(connection.PublishPort));
        _heartbeat.Bind(connection.AddressOf(connection.HeartbeatPort));
        _poller = [_shell, _control, _heartbeat, _outgoing];
        _shell.ReceiveReady += (_, ready) => Receive(ready.Socket, ShellReceived);
        _control.ReceiveReady += (_, ready) => Receive(ready.Socket, ControlReceived);
        _heartbeat.ReceiveReady += (_, ready) => ready.Socket.SendMultipartMessage(ready.Socket.ReceiveMultipartMessage());
        _outgoing.ReceiveReady += (_, ready) => Send(ready.Queue);
    }

    /// <summary>A request came, in the order in which requests are to be answered. Raised on the sockets' thread: be quick.</summary>
    internal event Action<JupyterMessage>? ShellReceived;

    /// <summary>A request came that is not to wait for those before it. Raised on the sockets' thread: be quick.</summary>
    internal event Action<JupyterMessage>? ControlReceived;

    internal void ReplyOnShell(JupyterMessage message) => _outgoing.Enqueue((_shell, message));

    internal void ReplyOnControl(JupyterMessage message) => _outgoing.Enqueue((_control, message));

    internal void Publish(JupyterMessage message) => _outgoing.Enqueue((_publish, message));

    /// <summary>Serves the sockets on this thread, until <see cref="Stop"/> is called on any.</summary>
    internal void Run() => _poller.Run();

    /// <summary>Ends <see cref="Run"/> once all is sent.</summary>
    internal void Stop() => _outgoing.Enqueue((_publish, null));

    public void Dispose()
    {
        _poller.Dispose();
        _outgoing.Dispose();
        foreach (var socket in new NetMQSocket[] { _shell, _control, _publish, _heartbeat })
            socket.Dispose();
    }

    private void Receive(NetMQSocket socket, Action<JupyterMessage>? received)
    {
        if (JupyterMessage.Read(socket.ReceiveMultipartMessage(), _signature) is { } message)
            received?.Invoke(message);
    }

    private void Send(NetMQQueue<(IOutgoingSocket Socket, JupyterMessage? Message)> queue)
    {
        while (queue.TryDequeue(out var outgoing, TimeSpan.Zero))
        {
            if (outgoing.Message is not { } message)
                _poller.Stop();
            else
                outgoing.Socket.SendMultipartMessage(message.Write(_signature));
        }
    }
}
