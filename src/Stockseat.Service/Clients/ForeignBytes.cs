using System.Buffers;
using System.Text;

namespace Stockseat.Service.Clients;

/// <summary>
/// Recognises what other protocols send to a port that speaks none of them. A page in a browser reaches every port of its machine and of its network with
/// requests whose path, header values and body it chooses, so none of these may pass for lines of a client or of a gauge. Pure.
/// </summary>
public static class ForeignBytes
{
    /// <summary>This many bytes of a connection are enough to recognise how it begins.</summary>
    public const int Opening = 10;

    private const byte TlsGreeting = 0x16;

    /// <summary>The magic cookie of STUN.</summary>
    private static ReadOnlySpan<byte> Cookie => [0x21, 0x12, 0xA4, 0x42];

    private static readonly byte[][] Methods =
        [.. new[] { "GET ", "POST ", "PUT ", "HEAD ", "DELETE ", "OPTIONS ", "PATCH ", "CONNECT ", "TRACE ", "PRI " }.Select(Encoding.ASCII.GetBytes)];

    /// <summary>What RFC 9110 allows in the name of a field.</summary>
    private static readonly SearchValues<byte> Token = SearchValues.Create(
        "!#$%&'*+-.^_`|~0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"u8);

    /// <summary>
    /// Fields that browsers and other HTTP clients send, and that no gauge prints; fields that a gauge might print, such as Date or Range, are not here.
    /// </summary>
    private static readonly HashSet<string> Fields = new(StringComparer.OrdinalIgnoreCase)
    {
        "Host", "User-Agent", "Accept-Language", "Accept-Encoding", "Content-Type", "Content-Length", "Content-Disposition", "Transfer-Encoding", "Cookie",
        "Referer", "Authorization", "Cache-Control", "Upgrade-Insecure-Requests", "X-Requested-With",
    };

    private static readonly string[] FieldFamilies = ["Sec-", "Access-Control-", "Proxy-", "X-Forwarded-", "If-"];

    /// <summary>Whether a connection opens with HTTP, with TLS, or with STUN, in which a browser sends names that a page chooses, also over TCP.</summary>
    /// <param name="bytes">Its first bytes, <see cref="Opening"/> or as many as there are.</param>
    public static bool Opens(ReadOnlySpan<byte> bytes) =>
        IsTls(bytes) || HasMethod(bytes)
        || HasCookie(bytes, 4) || HasCookie(bytes, 6); // Bare STUN, and STUN after the length that ICE puts before it (RFC 4571).

    /// <summary>Whether these bytes begin a greeting of TLS.</summary>
    public static bool IsTls(ReadOnlySpan<byte> bytes) => !bytes.IsEmpty && bytes[0] == TlsGreeting;

    /// <summary>Whether a line begins with a method of HTTP and a space.</summary>
    public static bool HasMethod(ReadOnlySpan<byte> line)
    {
        foreach (var method in Methods)
        {
            if (line.StartsWith(method))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>
    /// Whether a line is the first one of a request: a method with a version, or longer than a line may be; any method with a version at the end.
    /// </summary>
    /// <param name="line">The line, or its beginning.</param>
    /// <param name="tooLong">Whether it is longer than a line may be.</param>
    public static bool IsRequestLine(ReadOnlySpan<byte> line, bool tooLong) =>
        (HasMethod(line) && (tooLong || line.IndexOf(" HTTP/"u8) >= 0)) || (line.Length > 9 && line[^9..^3].SequenceEqual(" HTTP/"u8));

    /// <summary>Whether a line is a field of HTTP: a name and a colon.</summary>
    /// <param name="line">The line, or its beginning.</param>
    public static bool IsField(ReadOnlySpan<byte> line) => FieldName(line) > 0;

    /// <summary>Whether a line is a field of HTTP that no gauge prints.</summary>
    /// <param name="line">The line, or its beginning.</param>
    public static bool IsKnownField(ReadOnlySpan<byte> line)
    {
        var length = FieldName(line);
        var name = length is > 0 and <= 64 ? Encoding.ASCII.GetString(line[..length]) : "";
        return Fields.Contains(name) || Array.Exists(FieldFamilies, f => name.StartsWith(f, StringComparison.OrdinalIgnoreCase));
    }

    private static int FieldName(ReadOnlySpan<byte> line)
    {
        var length = line.IndexOfAnyExcept(Token);
        return length > 0 && line[length] == ':' ? length : 0;
    }

    private static bool HasCookie(ReadOnlySpan<byte> bytes, int at) => bytes.Length >= at + Cookie.Length && bytes[at..].StartsWith(Cookie);
}
