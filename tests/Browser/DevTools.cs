using System.Collections.Concurrent;
using System.Net.WebSockets;
using System.Text.Json.Nodes;

namespace TastingKit.Tests.Browsing;

/// <summary>Calls and events of the DevTools protocol over one socket.</summary>
internal sealed class DevTools : IAsyncDisposable
{
    private static readonly TimeSpan CallLimit = TimeSpan.FromSeconds(60);

    private readonly ClientWebSocket _socket;
    private readonly ConcurrentDictionary<int, TaskCompletionSource<JsonObject>> _calls = new();
    private readonly SemaphoreSlim _sending = new(1);
    private readonly CancellationTokenSource _end = new();
    private readonly Task _reading;
    private int _lastId;

    internal DevTools(ClientWebSocket socket)
    {
        _socket = socket;
        _reading = ReadAsync();
    }

    /// <summary>Method, session and parameters of each event, in the order they come.</summary>
    internal event Action<string, string?, JsonObject>? Happened;

    internal async Task<JsonObject> CallAsync(string method, JsonObject? parameters = null, string? session = null)
    {
        var id = Interlocked.Increment(ref _lastId);
        var answer = _calls[id] = new TaskCompletionSource<JsonObject>(TaskCreationOptions.RunContinuationsAsynchronously);
        var call = new JsonObject { ["id"] = id, ["method"] = method, ["params"] = parameters ?? [] };
        if (session is not null)
            call["sessionId"] = session;
        await _sending.WaitAsync();
        try
        {
            await _socket.SendAsync(System.Text.Encoding.UTF8.GetBytes(call.ToJsonString()), WebSocketMessageType.Text, true, _end.Token);
        }
        finally
        {
            _sending.Release();
        }

        var message = await answer.Task.WaitAsync(CallLimit);
        return message["error"] is { } error
            ? throw new InvalidOperationException($"{method}: {error.ToJsonString()}")
            : message["result"]!.AsObject();
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        try
        {
            await _reading;
        }
        catch (Exception error) when (error is OperationCanceledException or WebSocketException)
        {
            // This is how reading ends.
        }

        _socket.Dispose();
        _sending.Dispose();
        _end.Dispose();
    }

    private async Task ReadAsync()
    {
        var buffer = new byte[1 << 16];
        using var message = new MemoryStream();
        while (true)
        {
            message.SetLength(0);
            ValueWebSocketReceiveResult part;
            do
            {
                part = await _socket.ReceiveAsync(buffer.AsMemory(), _end.Token);
                message.Write(buffer, 0, part.Count);
            }
            while (!part.EndOfMessage);

            var json = JsonNode.Parse(message.GetBuffer().AsSpan(0, (int)message.Length))!.AsObject();
            if (json["id"] is { } id && _calls.TryRemove((int)id, out var call))
                call.SetResult(json);
            else if (json["method"] is { } method)
                Happened?.Invoke((string)method!, (string?)json["sessionId"], json["params"]?.AsObject() ?? []);
        }
    }
}
