using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace TastingKit.NotebookHost.Tests.Jupyter;

/// <summary>What the kernel says to Jupyter, by the protocol's own words.</summary>
public sealed class JupyterKernelTests(JupyterKernelTests.Kernel kernel) : IClassFixture<JupyterKernelTests.Kernel>
{
    private const string FirstCell = "#r \"TastingKit.Notebooks\"\nusing TastingKit; using TastingKit.Charts; using TastingKit.Notebooks;\nTastingNotebook.Start()";

    private readonly JupyterClient _client = kernel.Client;

    /// <summary>One kernel for all: each test leaves it at rest.</summary>
    public sealed class Kernel : IDisposable
    {
        internal JupyterClient Client { get; } = new();

        public void Dispose() => Client.Dispose();
    }

    [Fact]
    public void It_says_who_it_is_on_both_channels_and_that_it_lives()
    {
        foreach (var onControl in new[] { false, true })
        {
            _client.Send("kernel_info_request", [], onControl);
            var reply = _client.Reply(onControl);
            Assert.Equal("kernel_info_reply", reply.Type);
            Assert.Equal("5.3", (string?)reply.Content["protocol_version"]);
            Assert.Equal("C#", (string?)reply.Content["language_info"]!["name"]);
        }

        Assert.Equal("still there?", _client.Beat("still there?"));
    }

    [Fact]
    public void What_a_cell_shows_comes_in_its_order_and_with_its_count()
    {
        var (reply, published) = _client.Run("Console.WriteLine(\"one\"); Console.Error.WriteLine(\"two\"); display(\"three\"); \"four\"");
        Assert.Equal(["execute_input", "stream", "stream", "display_data", "execute_result"], published.Select(message => message.Type));
        Assert.Equal(["stdout", "stderr"], published.Skip(1).Take(2).Select(message => (string?)message.Content["name"]));
        Assert.Equal("one\n", (string?)published[1].Content["text"]);
        Assert.Equal("three", (string?)published[3].Content["data"]!["text/plain"]);
        Assert.Equal("four", (string?)published[4].Content["data"]!["text/plain"]);
        Assert.Equal("ok", (string?)reply["status"]);
        Assert.Equal((int)published[0].Content["execution_count"]!, (int)reply["execution_count"]!);
        Assert.Equal((int)reply["execution_count"]! + 1, (int)_client.Run("1").Reply["execution_count"]!);
    }

    [Fact]
    public void A_value_that_is_updated_changes_where_it_was_shown()
    {
        var (_, published) = _client.Run(
            """
            var shown = Microsoft.DotNet.Interactive.KernelInvocationContextExtensions.Display(Microsoft.DotNet.Interactive.KernelInvocationContext.Current, "1 %", "text/plain");
            shown.Update("2 %");
            """);
        var first = published.Single(message => message.Type == "display_data");
        var then = published.Single(message => message.Type == "update_display_data");
        Assert.Equal((string?)first.Content["transient"]!["display_id"], (string?)then.Content["transient"]!["display_id"]);
        Assert.Equal("2 %", (string?)then.Content["data"]!["text/plain"]);
    }

    [Fact]
    public void The_first_cell_shows_the_loader_and_no_address()
    {
        var (reply, published) = _client.Run(FirstCell);
        Assert.Equal("ok", (string?)reply["status"]);
        Assert.Equal(["execute_input", "execute_result"], published.Select(message => message.Type));
        // But for plotly.js, which is packed and tells nothing.
        var html = Regex.Replace((string)published[1].Content["data"]!["text/html"]!, "[A-Za-z0-9+/=]{1000,}", "");
        Assert.Contains("tastingKitCharts", html, StringComparison.Ordinal);
        foreach (var address in new[] { "127.0.0.1", "localhost", "://", Dns.GetHostName() })
            Assert.DoesNotContain(address, html, StringComparison.Ordinal);
    }

    [Fact]
    public void A_failing_cell_says_where_and_stops_those_that_wait_behind_it()
    {
        var ids = new[] { "await System.Threading.Tasks.Task.Delay(1000);\nthrow new InvalidOperationException(\"Spilt.\");", "var never = 1;", "var neither = 1;" }.Select(code => _client.SendCell(code)).ToArray();
        var replies = ids.Select(_ => _client.Reply()).ToDictionary(reply => (string)reply.Parent["msg_id"]!, reply => reply.Content);
        Assert.Equal(["error", "aborted", "aborted"], ids.Select(id => (string?)replies[id]["status"]));
        Assert.All(ids[1..], id => Assert.Null(replies[id]["execution_count"]));
        Assert.Equal("InvalidOperationException", (string?)replies[ids[0]]["ename"]);
        Assert.Equal("Spilt.", (string?)replies[ids[0]]["evalue"]);
        Assert.Equal("Line 2 of this cell:", (string?)replies[ids[0]]["traceback"]![0]);
        Assert.Equal("error", _client.PublishedFor(ids[0])[^1].Type);
        Assert.Equal("CS0103", (string?)_client.Run("never").Reply["ename"]);
        Assert.Equal("ok", (string?)_client.Run("1").Reply["status"]);
    }

    [Fact]
    public void A_failing_cell_that_is_not_to_stop_others_does_not()
    {
        _client.SendCell("throw new InvalidOperationException();", stopOnError: false);
        _client.SendCell("1");
        Assert.Equal(["error", "ok"], new[] { _client.Reply(), _client.Reply() }.Select(reply => (string?)reply.Content["status"]));
    }

    [Fact]
    public void An_interrupt_ends_a_waiting_cell_and_keeps_what_ran_before()
    {
        _client.Run("var kept = 7;");
        var id = _client.SendCell("Console.WriteLine(\"waiting\");\nawait System.Threading.Tasks.Task.Delay(System.Threading.Timeout.Infinite, Microsoft.DotNet.Interactive.KernelInvocationContext.Current.CancellationToken);");
        Thread.Sleep(1000);
        _client.Send("interrupt_request", [], onControl: true);
        Assert.Equal("interrupt_reply", _client.Reply(onControl: true).Type);
        var reply = _client.Reply().Content;
        Assert.Equal("Interrupted", (string?)reply["ename"]);
        Assert.StartsWith("Stopped at your request.", (string?)reply["evalue"], StringComparison.Ordinal);
        Assert.Contains(_client.PublishedFor(id), message => (string?)message.Content["text"] == "waiting\n");
        Assert.Equal("7", (string?)_client.Run("kept.ToString()").Published[^1].Content["data"]!["text/plain"]);
    }

    [Fact]
    public void An_interrupt_while_nothing_runs_harms_nothing()
    {
        _client.Run("1");
        _client.Send("interrupt_request", [], onControl: true);
        Assert.Equal("interrupt_reply", _client.Reply(onControl: true).Type);
        Assert.Equal("ok", (string?)_client.Run("2").Reply["status"]);
    }

    [Theory]
    [InlineData("#r \"Nowhere\"", "CS0006", "By name alone only the kit's own assemblies")]
    [InlineData("#r \"nuget: Nowhere\"", "CS0006", "Packages are not fetched.")]
    public void What_does_not_compile_says_what_to_do(string code, string error, string advice)
    {
        var reply = _client.Run(code).Reply;
        Assert.Equal(error, (string?)reply["ename"]);
        Assert.Contains(advice, (string?)reply["evalue"], StringComparison.Ordinal);
        Assert.Equal("Line 1 of this cell:", (string?)reply["traceback"]![0]);
    }

    [Fact]
    public void Words_are_completed_where_Jupyter_counts_them()
    {
        // The cup is one code point and two UTF-16 units.
        const string Code = "var cup = \"\U0001F375\";\ncup.Len";
        _client.Send("complete_request", new JsonObject { ["code"] = Code, ["cursor_pos"] = Code.EnumerateRunes().Count() });
        var reply = _client.Reply().Content;
        Assert.Equal(["Length"], reply["matches"]!.AsArray().Select(match => (string?)match));
        Assert.Equal(Code.EnumerateRunes().Count() - 3, (int)reply["cursor_start"]!);
        Assert.Equal(Code.EnumerateRunes().Count(), (int)reply["cursor_end"]!);
    }

    [Fact]
    public void A_name_is_explained()
    {
        _client.Send("inspect_request", new JsonObject { ["code"] = "Console.WriteLine", ["cursor_pos"] = 10 });
        var reply = _client.Reply().Content;
        Assert.True((bool)reply["found"]!);
        Assert.Contains("Console.WriteLine", (string?)reply["data"]!["text/plain"], StringComparison.Ordinal);
    }

    [Fact]
    public void A_message_with_another_key_is_not_heard()
    {
        var before = (int)_client.Run("1").Reply["execution_count"]!;
        _client.Send("execute_request", new JsonObject { ["code"] = "System.Environment.Exit(9);" }, key: "another key");
        Assert.True(_client.IsSilent(TimeSpan.FromSeconds(1)));
        Assert.Equal(before + 1, (int)_client.Run("1").Reply["execution_count"]!);
    }
}
