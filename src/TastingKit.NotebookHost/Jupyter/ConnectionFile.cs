using System.Text.Json;
using System.Text.Json.Serialization;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>Where Jupyter wants to find the kernel, and the key that both sign with; written by Jupyter for this one kernel.</summary>
internal sealed record ConnectionFile
{
    [JsonPropertyName("transport")]
    public required string Transport { get; init; }

    [JsonPropertyName("ip")]
    public required string Address { get; init; }

    [JsonPropertyName("shell_port")]
    public required int ShellPort { get; init; }

    [JsonPropertyName("control_port")]
    public required int ControlPort { get; init; }

    [JsonPropertyName("iopub_port")]
    public required int PublishPort { get; init; }

    [JsonPropertyName("stdin_port")]
    public required int InputPort { get; init; }

    [JsonPropertyName("hb_port")]
    public required int HeartbeatPort { get; init; }

    [JsonPropertyName("key")]
    public required string Key { get; init; }

    [JsonPropertyName("signature_scheme")]
    public required string SignatureScheme { get; init; }

    /// <exception cref="JupyterException">It is not there, is no connection file, or asks for what this kernel doesn't speak.</exception>
    internal static ConnectionFile Read(string path)
    {
        ConnectionFile connection;
        try
        {
            connection = JsonSerializer.Deserialize(File.ReadAllText(path), ConnectionFileJson.Default.ConnectionFile)
                ?? throw new JupyterException($"The connection file '{path}' is empty.");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or JsonException)
        {
            throw new JupyterException($"The connection file '{path}' can't be read: {error.Message}");
        }

        if (connection.Transport != "tcp")
            throw new JupyterException($"The connection file asks for the transport '{connection.Transport}'. This kernel speaks tcp.");
        if (connection.Key.Length > 0 && connection.SignatureScheme != MessageSignature.Scheme)
            throw new JupyterException($"The connection file asks for signatures by '{connection.SignatureScheme}'. This kernel signs by {MessageSignature.Scheme}.");
        return connection;
    }

    internal string AddressOf(int port) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"tcp://{Address}:{port}");
}

[JsonSerializable(typeof(ConnectionFile))]
internal sealed partial class ConnectionFileJson : JsonSerializerContext;
