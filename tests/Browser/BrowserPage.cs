using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json.Nodes;

namespace TastingKit.Tests.Browsing;

/// <summary>An open page: what it said, what it asked for, and what it shows.</summary>
internal sealed class BrowserPage(DevTools tools, string session)
{
    private static readonly TimeSpan WaitLimit = TimeSpan.FromSeconds(60);

    private readonly ConcurrentQueue<string> _messages = new();
    private readonly ConcurrentQueue<string> _requests = new();
    private readonly TaskCompletionSource _loaded = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Everything on the console, errors that nobody caught and breaches of the security policy among it.</summary>
    internal IReadOnlyCollection<string> Messages => _messages;

    /// <summary>Every address asked for, the page's own and data addresses left out.</summary>
    internal IReadOnlyCollection<string> Requests => _requests;

    internal async Task OpenAsync(Uri address, int width, int height, bool dark)
    {
        tools.Happened += (method, from, parameters) =>
        {
            if (from == session)
                Note(method, parameters, address);
        };
        foreach (var domain in new[] { "Page.enable", "Runtime.enable", "Log.enable", "Network.enable" })
            await CallAsync(domain);
        await ResizeAsync(width, height);
        // Pages that are open side by side behave each as the one in front.
        await CallAsync("Emulation.setFocusEmulationEnabled", new JsonObject { ["enabled"] = true });
        await CallAsync("Emulation.setEmulatedMedia", new JsonObject
        {
            ["features"] = new JsonArray(new JsonObject { ["name"] = "prefers-color-scheme", ["value"] = dark ? "dark" : "light" }),
        });
        await CallAsync("Page.navigate", new JsonObject { ["url"] = address.AbsoluteUri });
        await _loaded.Task.WaitAsync(WaitLimit);
    }

    internal Task ResizeAsync(int width, int height) => CallAsync("Emulation.setDeviceMetricsOverride", new JsonObject
    {
        ["width"] = width,
        ["height"] = height,
        ["deviceScaleFactor"] = 1,
        ["mobile"] = width < 600,
    });

    /// <summary>The value of a JavaScript expression; a promise is awaited.</summary>
    internal async Task<JsonNode?> EvaluateAsync(string expression)
    {
        var answer = await CallAsync("Runtime.evaluate", new JsonObject { ["expression"] = expression, ["returnByValue"] = true, ["awaitPromise"] = true });
        return answer["exceptionDetails"] is { } error
            ? throw new InvalidOperationException($"{expression}: {error.ToJsonString()}")
            : answer["result"]!["value"]?.DeepClone();
    }

    internal async Task<int> CountAsync(string selector) => (int)(await EvaluateAsync($"document.querySelectorAll({JsonValue.Create(selector).ToJsonString()}).length"))!;

    /// <summary>Types into whatever has the focus.</summary>
    internal Task TypeAsync(string text) => CallAsync("Input.insertText", new JsonObject { ["text"] = text });

    /// <summary>Waits until an expression is true: a minute, or as long as is said.</summary>
    /// <exception cref="TimeoutException">It did not come true.</exception>
    internal async Task WaitAsync(string expression, TimeSpan? limit = null)
    {
        var waited = Stopwatch.StartNew();
        while ((bool?)await EvaluateAsync($"!!({expression})") != true)
        {
            if (waited.Elapsed > (limit ?? WaitLimit))
                throw new TimeoutException($"Not true in {waited.Elapsed.TotalSeconds:F0} s: {expression}. The console said: {string.Join(" | ", _messages)}");
            await Task.Delay(50);
        }
    }

    /// <summary>Waits until no chart is left to draw.</summary>
    internal Task WaitForChartsAsync() => WaitAsync("!document.querySelector('figure.tk-chart:not([data-state]), figure.tk-chart[data-state=drawing]')");

    /// <summary>Presses a key and lets it go.</summary>
    /// <param name="key">Its name in the DOM, such as <c>Tab</c> or <c>Enter</c>.</param>
    /// <param name="withShift">Whether the shift key is held.</param>
    internal async Task PressAsync(string key, bool withShift = false)
    {
        var (code, text) = key switch
        {
            "Tab" => (9, ""),
            "Enter" => (13, "\r"),
            _ => throw new ArgumentException($"The key '{key}' has no code here. Expected Tab or Enter.", nameof(key)),
        };
        foreach (var type in new[] { text.Length > 0 ? "keyDown" : "rawKeyDown", "keyUp" })
        {
            await CallAsync("Input.dispatchKeyEvent", new JsonObject
            {
                ["type"] = type,
                ["key"] = key,
                ["modifiers"] = withShift ? 8 : 0,
                ["code"] = key,
                ["windowsVirtualKeyCode"] = code,
                ["text"] = type == "keyUp" ? "" : text,
            });
        }
    }

    /// <summary>Moves the mouse to a place in the window, in CSS pixels.</summary>
    internal Task PointAtAsync(double x, double y) => CallAsync("Input.dispatchMouseEvent", new JsonObject { ["type"] = "mouseMoved", ["x"] = x, ["y"] = y });

    /// <summary>The page, or what the window shows of it, as a PNG.</summary>
    internal async Task<byte[]> PictureAsync() =>
        Convert.FromBase64String((string)(await CallAsync("Page.captureScreenshot", new JsonObject { ["format"] = "png" }))["data"]!);

    private Task<JsonObject> CallAsync(string method, JsonObject? parameters = null) => tools.CallAsync(method, parameters, session);

    private void Note(string method, JsonObject parameters, Uri address)
    {
        switch (method)
        {
            case "Page.loadEventFired":
                _loaded.TrySetResult();
                break;
            case "Runtime.consoleAPICalled":
                _messages.Enqueue($"{parameters["type"]}: {parameters["args"]?.ToJsonString()}");
                break;
            case "Runtime.exceptionThrown":
                _messages.Enqueue($"exception: {parameters["exceptionDetails"]?.ToJsonString()}");
                break;
            case "Log.entryAdded":
                _messages.Enqueue($"{parameters["entry"]?["level"]}: {parameters["entry"]?["text"]}");
                break;
            case "Network.requestWillBeSent":
                var asked = (string)parameters["request"]!["url"]!;
                if (asked != address.AbsoluteUri && asked != "about:blank" && !asked.StartsWith("data:", StringComparison.Ordinal) && !asked.StartsWith("blob:", StringComparison.Ordinal))
                    _requests.Enqueue(asked);
                break;
        }
    }
}
