using System.Text;
using TastingKit.NotebookHost.Jupyter;

namespace TastingKit.NotebookHost.Tests.Jupyter;

public sealed class ConnectionTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-connection-");

    public void Dispose() => _folder.Delete(recursive: true);

    private string Write(string text)
    {
        var path = Path.Combine(_folder.FullName, "connection.json");
        File.WriteAllText(path, text);
        return path;
    }

    private static string Connection(string transport, string scheme) =>
        $$"""{"transport":"{{transport}}","ip":"127.0.0.1","shell_port":1,"control_port":2,"iopub_port":3,"stdin_port":4,"hb_port":5,"key":"k","signature_scheme":"{{scheme}}"}""";

    [Fact]
    public void A_connection_file_is_read()
    {
        var connection = ConnectionFile.Read(Write(Connection("tcp", "hmac-sha256")));
        Assert.Equal("tcp://127.0.0.1:3", connection.AddressOf(connection.PublishPort));
        Assert.Equal("k", connection.Key);
    }

    [Fact]
    public void What_the_kernel_does_not_speak_is_refused_by_name()
    {
        Assert.Contains("'ipc'", Assert.Throws<JupyterException>(() => ConnectionFile.Read(Write(Connection("ipc", "hmac-sha256")))).Message, StringComparison.Ordinal);
        Assert.Contains("'hmac-md5'", Assert.Throws<JupyterException>(() => ConnectionFile.Read(Write(Connection("tcp", "hmac-md5")))).Message, StringComparison.Ordinal);
        Assert.Contains("can't be read", Assert.Throws<JupyterException>(() => ConnectionFile.Read(Write("{}"))).Message, StringComparison.Ordinal);
        Assert.Contains("can't be read", Assert.Throws<JupyterException>(() => ConnectionFile.Read(Path.Combine(_folder.FullName, "nowhere"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_connection_the_kernel_says_why_and_ends()
    {
        using var host = JupyterClient.StartHost(Path.Combine(_folder.FullName, "nowhere.json"));
        var complaint = await host.StandardError.ReadToEndAsync();
        await host.WaitForExitAsync();
        Assert.Equal(2, host.ExitCode);
        Assert.StartsWith("The connection file '", complaint, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", complaint, StringComparison.Ordinal);
    }

    /// <summary>The example of RFC 4231, test case 2, for HMAC-SHA-256, its data dealt over four parts.</summary>
    [Fact]
    public void The_signature_is_that_of_the_standard()
    {
        byte[][] parts = [.. new[] { "what do ", "ya want ", "for ", "nothing?" }.Select(Encoding.ASCII.GetBytes)];
        const string Expected = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843";
        Assert.Equal(Expected, new MessageSignature("Jefe").Of(parts));
        Assert.True(new MessageSignature("Jefe").IsRight(Expected, parts));
        Assert.False(new MessageSignature("Jefa").IsRight(Expected, parts));
        Assert.False(new MessageSignature("Jefe").IsRight("", parts));
    }
}
