using System.Diagnostics;
using System.Text.Json.Nodes;

namespace TastingKit.NotebookHost.Tests.Jupyter;

/// <summary>How a kernel begins and ends: each test with one of its own.</summary>
public sealed class KernelLifeTests
{
    [Fact]
    public void In_a_new_kernel_a_later_cell_points_to_the_first()
    {
        using var client = new JupyterClient();
        var reply = client.Run("TastingNotebook.Log").Reply;
        Assert.Equal("CS0103", (string?)reply["ename"]);
        Assert.EndsWith("begin with the first.", (string?)reply["evalue"], StringComparison.Ordinal);
    }

    [Fact]
    public void It_ends_when_asked_even_in_the_midst_of_a_cell()
    {
        using var client = new JupyterClient();
        client.SendCell("while (true) { }");
        Thread.Sleep(1000);
        client.Send("shutdown_request", new JsonObject { ["restart"] = false }, onControl: true);
        Assert.Equal("shutdown_reply", client.Reply(onControl: true).Type);
        Assert.True(client.Process.WaitForExit(TimeSpan.FromSeconds(20)));
        Assert.Equal(0, client.Process.ExitCode);
    }

    [Fact]
    public void It_ends_with_the_Jupyter_that_started_it()
    {
        if (OperatingSystem.IsWindows())
            return;
        using var jupyter = Process.Start("sleep", "600");
        using var client = new JupyterClient(jupyter.Id);
        Assert.False(client.Process.HasExited);
        jupyter.Kill();
        Assert.True(client.Process.WaitForExit(TimeSpan.FromSeconds(20)));
    }
}
