using System.Security.Cryptography;
using System.Text;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>Signs messages with the connection's key, so that another user of the machine can't speak to the kernel.</summary>
/// <param name="key">The key as the connection file has it; empty for no signatures.</param>
internal sealed class MessageSignature(string key)
{
    internal const string Scheme = "hmac-sha256";

    private readonly byte[] _key = Encoding.UTF8.GetBytes(key);

    /// <summary>The signature of the four parts of a message, in lower-case hexadecimal.</summary>
    internal string Of(IReadOnlyList<byte[]> parts)
    {
        if (_key.Length == 0)
            return "";
        using var hash = IncrementalHash.CreateHMAC(HashAlgorithmName.SHA256, _key);
        foreach (var part in parts)
            hash.AppendData(part);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    internal bool IsRight(string signature, IReadOnlyList<byte[]> parts) =>
        CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(signature), Encoding.ASCII.GetBytes(Of(parts)));
}
