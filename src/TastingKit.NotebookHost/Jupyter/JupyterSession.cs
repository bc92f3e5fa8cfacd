using System.Text.Json.Nodes;
using System.Threading.Channels;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>
/// Answers Jupyter's requests: one after the other as they come, but for an interrupt and an end, which do not wait. When a cell
/// fails, those that wait behind it do not run, so that a notebook stops where it went wrong.
/// </summary>
internal sealed class JupyterSession
{
    private const string Interrupted = "Interrupted";

    private const string InterruptedMessage =
        "Stopped at your request. Code that does not watch for it, such as an endless loop, goes on all the same: where the next cell does not start, restart the kernel.";

    /// <summary>The compiler's codes for a name and a type that it does not know.</summary>
    private static readonly string[] UnknownName = ["CS0103", "CS0246"];

    private readonly JupyterSockets _sockets;
    private readonly Task<CellKernel> _kernel;
    private readonly Channel<JupyterMessage> _requests = Channel.CreateUnbounded<JupyterMessage>();
    private readonly string _session = Guid.NewGuid().ToString();
    private volatile JupyterMessage? _running;
    private volatile bool _isInterrupted;
    private CellFailed? _failure;
    private bool _hasRun;
    private int _count;

    internal JupyterSession(JupyterSockets sockets)
    {
        _sockets = sockets;
        _sockets.ShellReceived += request => _requests.Writer.TryWrite(request);
        _sockets.ControlReceived += request => Handle(request, AnswerControl);
        // Jupyter asks who the kernel is before it sends a cell: what is slow is prepared meanwhile.
        _kernel = Task.Run(() => new CellKernel(Show));
    }

    /// <summary>Answers requests until the kernel is asked to end.</summary>
    internal async Task RunAsync()
    {
        Publish("status", null, new JsonObject { ["execution_state"] = "starting" });
        await foreach (var request in _requests.Reader.ReadAllAsync())
            await HandleAsync(request);
    }

    private void AnswerControl(JupyterMessage request)
    {
        switch (request.Type)
        {
            case "interrupt_request":
                Interrupt();
                _sockets.ReplyOnControl(Reply(request, "interrupt_reply", Ok()));
                break;
            case "kernel_info_request":
                _sockets.ReplyOnControl(Reply(request, "kernel_info_reply", KernelInformation.Create()));
                break;
            case "shutdown_request":
                _sockets.ReplyOnControl(Reply(request, "shutdown_reply", Ended(request)));
                End();
                break;
        }
    }

    private async Task HandleAsync(JupyterMessage request)
    {
        Publish("status", request, new JsonObject { ["execution_state"] = "busy" });
        try
        {
            if (await AnswerAsync(request) is var (type, content))
                _sockets.ReplyOnShell(Reply(request, type, content));
        }
        finally
        {
            Publish("status", request, new JsonObject { ["execution_state"] = "idle" });
        }

        if (_failure is not null && (bool?)request.Content["stop_on_error"] != false)
            AbortWaiting();
    }

    private async Task<(string Type, JsonObject Content)?> AnswerAsync(JupyterMessage request)
    {
        switch (request.Type)
        {
            case "execute_request":
                return ("execute_reply", await ExecuteAsync(request));
            case "complete_request":
                return ("complete_reply", await CodeAssistance.CompleteAsync(await _kernel, CodeOf(request), CursorOf(request)));
            case "inspect_request":
                return ("inspect_reply", await CodeAssistance.InspectAsync(await _kernel, CodeOf(request), CursorOf(request)));
            case "is_complete_request":
                return ("is_complete_reply", new JsonObject { ["status"] = "unknown" });
            case "kernel_info_request":
                return ("kernel_info_reply", KernelInformation.Create());
            case "comm_info_request":
                return ("comm_info_reply", new JsonObject { ["status"] = "ok", ["comms"] = new JsonObject() });
            case "history_request":
                return ("history_reply", new JsonObject { ["status"] = "ok", ["history"] = new JsonArray() });
            case "shutdown_request":
                End();
                return ("shutdown_reply", Ended(request));
            default:
                return null;
        }
    }

    private async Task<JsonObject> ExecuteAsync(JupyterMessage request)
    {
        var isSilent = (bool?)request.Content["silent"] == true;
        _failure = null;
        _isInterrupted = false;
        if (!isSilent)
        {
            _count++;
            Publish("execute_input", request, new JsonObject { ["code"] = CodeOf(request), ["execution_count"] = _count });
        }

        _running = request;
        var kernel = await _kernel;
        await kernel.RunAsync(new RunRequest.Cell(_count, CodeOf(request)));
        var reply = _failure is { } failure ? ErrorContent(failure) : Ok();
        _hasRun |= _failure is null && !isSilent;
        if (_failure is null)
            reply["user_expressions"] = new JsonObject();
        else
            Publish("error", request, reply.DeepClone().AsObject());
        reply["execution_count"] = _count;
        return reply;
    }

    /// <summary>What a cell shows, as it shows it.</summary>
    private void Show(HostEvent happened)
    {
        switch (happened)
        {
            case CellPrinted printed:
                Publish("stream", _running, new JsonObject { ["name"] = printed.IsError ? "stderr" : "stdout", ["text"] = printed.Text });
                break;
            case CellDisplayed { IsResult: true } result:
                Publish("execute_result", _running, Display(result.Data, result.DisplayId, _count));
                break;
            case CellDisplayed displayed:
                Publish("display_data", _running, Display(displayed.Data, displayed.DisplayId));
                break;
            case CellDisplayUpdated updated:
                Publish("update_display_data", _running, Display(updated.Data, updated.DisplayId));
                break;
            case CellFailed failed:
                _failure = failed;
                break;
        }
    }

    private static JsonObject Display(IReadOnlyDictionary<string, string> bundle, string? displayId, int? count = null)
    {
        var data = new JsonObject();
        foreach (var (type, value) in bundle)
            data[type] = type == "application/json" ? JsonNode.Parse(value) : value;
        var content = new JsonObject { ["data"] = data, ["metadata"] = new JsonObject() };
        if (displayId is not null)
            content["transient"] = new JsonObject { ["display_id"] = displayId };
        if (count is not null)
            content["execution_count"] = count;
        return content;
    }

    private JsonObject ErrorContent(CellFailed failed)
    {
        var (error, message) = _isInterrupted ? (Interrupted, InterruptedMessage) : (failed.Error, failed.Message);
        if (!_hasRun && UnknownName.Contains(error))
            message += ". No cell of this notebook has run in this kernel yet: begin with the first.";
        var trace = new JsonArray();
        if (!_isInterrupted && failed.Line is { } line)
            trace.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Line {line} of this cell:"));
        trace.Add($"{error}: {message}");
        return new JsonObject { ["status"] = "error", ["ename"] = error, ["evalue"] = message, ["traceback"] = trace };
    }

    private void AbortWaiting()
    {
        _failure = null;
        var others = new List<JupyterMessage>();
        while (_requests.Reader.TryRead(out var waiting))
        {
            // Without a count: Jupyter would print it beside the cell as if that had run.
            if (waiting.Type == "execute_request")
                Handle(waiting, request => _sockets.ReplyOnShell(Reply(request, "execute_reply", new JsonObject { ["status"] = "aborted" })));
            else
                others.Add(waiting);
        }

        foreach (var other in others)
            _requests.Writer.TryWrite(other);
    }

    private void Interrupt()
    {
        _isInterrupted = true;
        if (_running is not null && _kernel.IsCompletedSuccessfully)
            _ = _kernel.Result.InterruptAsync();
    }

    private void End()
    {
        _requests.Writer.TryComplete();
        _sockets.Stop();
    }

    private void Handle(JupyterMessage request, Action<JupyterMessage> answer)
    {
        Publish("status", request, new JsonObject { ["execution_state"] = "busy" });
        answer(request);
        Publish("status", request, new JsonObject { ["execution_state"] = "idle" });
    }

    private JupyterMessage Reply(JupyterMessage request, string type, JsonObject content) =>
        JupyterMessage.Create(type, _session, request, request.Identities, content);

    private void Publish(string type, JupyterMessage? parent, JsonObject content) =>
        _sockets.Publish(JupyterMessage.Create(type, _session, parent, [System.Text.Encoding.ASCII.GetBytes(type)], content));

    private static string CodeOf(JupyterMessage request) => (string?)request.Content["code"] ?? "";

    private static int CursorOf(JupyterMessage request) => (int?)request.Content["cursor_pos"] ?? 0;

    private static JsonObject Ok() => new() { ["status"] = "ok" };

    private static JsonObject Ended(JupyterMessage request) => new() { ["status"] = "ok", ["restart"] = (bool?)request.Content["restart"] == true };
}
