using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace MixEngine.Service.Access;

/// <summary>An access key as its bearer has it: "mxk_", an id that is no secret, "_", and a secret of 256 random bits.</summary>
internal readonly record struct KeyText(string Id, string Secret)
{
    private const string Prefix = "mxk_";
    private const int IdBytes = 6, IdLetters = IdBytes * 2, SecretBytes = 32;

    /// <summary>A new key, from the system's source of secrets.</summary>
    public static KeyText New() => new(
        Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(IdBytes)), Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBytes)));

    /// <summary>Reads a key; null: it is none.</summary>
    public static KeyText? Read(string text)
    {
        var secret = Prefix.Length + IdLetters + 1;
        return text.StartsWith(Prefix, StringComparison.Ordinal) && text.Length > secret && text.Length < 200 && text[secret - 1] == '_'
            ? new KeyText(text[Prefix.Length..(secret - 1)], text[secret..])
            : null;
    }

    /// <summary>What is kept of the secret. A secret of 256 random bits cannot be guessed from its hash, so that a fast one will do.</summary>
    public byte[] Hash() => SHA256.HashData(Encoding.UTF8.GetBytes(Secret));

    /// <summary>The whole key, for its bearer alone.</summary>
    public string Whole() => $"{Prefix}{Id}_{Secret}";

    /// <summary>The id alone, so that no log or message shows the secret.</summary>
    public override string ToString() => Id;
}
