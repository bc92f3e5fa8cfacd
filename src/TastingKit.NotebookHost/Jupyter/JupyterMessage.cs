using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using NetMQ;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>A message of Jupyter's protocol 5.3.</summary>
/// <param name="Identities">To whom a reply goes, as ZeroMQ routes it; the topic of what is published.</param>
/// <param name="Header">Its id, type and session.</param>
/// <param name="Parent">The header of the request that it answers; empty in a request.</param>
/// <param name="Content">What it says.</param>
internal sealed record JupyterMessage(IReadOnlyList<byte[]> Identities, JsonObject Header, JsonObject Parent, JsonObject Content)
{
    private const int SignedParts = 4;

    private static readonly byte[] Delimiter = "<IDS|MSG>"u8.ToArray();
    private static readonly byte[] NoMetadata = "{}"u8.ToArray();

    /// <summary>For example <c>execute_request</c>.</summary>
    internal string Type => (string?)Header["msg_type"] ?? "";

    /// <summary>A message of this kernel.</summary>
    /// <param name="type">For example <c>execute_reply</c>.</param>
    /// <param name="session">The kernel's own session.</param>
    /// <param name="parent">The request that it answers, or whose doing it is; <see langword="null"/> for none.</param>
    /// <param name="identities">As <see cref="Identities"/>.</param>
    /// <param name="content">As <see cref="Content"/>.</param>
    internal static JupyterMessage Create(string type, string session, JupyterMessage? parent, IReadOnlyList<byte[]> identities, JsonObject content)
    {
        var header = new JsonObject
        {
            ["msg_id"] = Guid.NewGuid().ToString(),
            ["msg_type"] = type,
            ["session"] = session,
            ["username"] = "kernel",
            ["date"] = DateTime.UtcNow.ToString("O", System.Globalization.CultureInfo.InvariantCulture),
            ["version"] = "5.3",
        };
        return new JupyterMessage(identities, header, parent?.Header.DeepClone().AsObject() ?? [], content);
    }

    /// <summary>The message in those frames; <see langword="null"/> if they are none, or not signed with the key.</summary>
    internal static JupyterMessage? Read(NetMQMessage frames, MessageSignature signature)
    {
        var parts = frames.Select(frame => frame.ToByteArray()).ToList();
        var delimiter = parts.FindIndex(part => part.AsSpan().SequenceEqual(Delimiter));
        if (delimiter < 0 || parts.Count < delimiter + 2 + SignedParts)
            return null;
        var signed = parts.GetRange(delimiter + 2, SignedParts);
        if (!signature.IsRight(Encoding.ASCII.GetString(parts[delimiter + 1]), signed))
            return null;
        try
        {
            return new JupyterMessage(parts[..delimiter], Parse(signed[0]), Parse(signed[1]), Parse(signed[3]));
        }
        catch (Exception error) when (error is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>The frames to send.</summary>
    internal NetMQMessage Write(MessageSignature signature)
    {
        byte[][] signed = [Bytes(Header), Bytes(Parent), NoMetadata, Bytes(Content)];
        return new NetMQMessage([.. Identities, Delimiter, Encoding.ASCII.GetBytes(signature.Of(signed)), .. signed]);
    }

    private static JsonObject Parse(byte[] json) => JsonNode.Parse(json)!.AsObject();

    private static byte[] Bytes(JsonObject json) => Encoding.UTF8.GetBytes(json.ToJsonString());
}
