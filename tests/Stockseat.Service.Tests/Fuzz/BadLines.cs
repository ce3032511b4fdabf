using System.Text;
using System.Text.RegularExpressions;
using CsCheck;

namespace Stockseat.Service.Tests.Fuzz;

/// <summary>Lines that nobody should send: those of proto/line.sessions with something changed, and lines put together from random pieces.</summary>
internal static class BadLines
{
    private static readonly byte[][] Sent = [.. File.ReadAllLines(Path.Combine(Repository.Root, "proto", "line.sessions"))
        .Where(l => l.StartsWith("> ", StringComparison.Ordinal) && l != "> bye").Select(l => Encoding.ASCII.GetBytes(l[2..]))];

    private static readonly byte[][] Pieces = [.. new[]
    {
        "locate", "measured", "confirm", "emptied", "status", "help", "hello", " ", "  ", "=", "==", "\"", "\"\"", "\t", "\r\n", "\r", "\0", "\u001b[31m",
        "\u007f", "tag=", "tag=9",
        " fixture=pinbed-1", " fixture=rollers-3", " diameter=92.4mm", " diameter=1e308mm", " diameter=0.0924m", " diameter=", " diameter=3.638in",
        " diameter=\"92.4 mm\"", " lot=A1077",
        " gauge=bench-2", " purpose=place", " nest=2,1", " nest=999999,999999", " nest=-1,0", " nominal=92mm", " within=1mm", " serial=5",
        " serial=9223372036854775807", " serial=99999999999999999999",
        " by=0.006308", " y=-0.198692", " x=1", " bx=-0.004731", " x=\"1", "'bx=0.5'", "79228162514264337593543950335", "0.0000000000000000000000000001", "NaN",
        "Infinity", "-", "+", "mm", "um", "{0}", "{@x}", "%s",
        "\u00e9", "\u202e", "\u2028", "GET / HTTP/1.1", "GET lost", "POST /", " HTTP/1.1", "Host: a", ": ", "\u0016", "\u0016\u0003\u0001", "../../etc", "null",
        "true", new string('9', 300), new string('a', 520), new string('=', 100), new string('"', 99),
    }.Select(Encoding.UTF8.GetBytes)];

    private static readonly Gen<byte[]> Piece = Gen.Frequency(
        (6, Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i])),
        (2, Gen.Byte.Array[1, 4]),
        (1, Gen.Char[' ', '~'].Array[0, 20].Select(c => Encoding.ASCII.GetBytes(c))),
        (1, Gen.Select(Gen.Int[1, 40], Gen.Char['0', '9'], (n, c) => Encoding.ASCII.GetBytes(new string(c, n)))));

    private static readonly Gen<Func<byte[], byte[]>> Change = Gen.Select(Gen.Int[0, 9], Gen.Int[0, 600], Gen.Int[1, 12], Piece, Of);

    /// <summary>One line: no LF within it, and none at its end.</summary>
    public static Gen<byte[]> Any { get; } = Gen.Frequency(
        (1, Gen.Int[0, Sent.Length - 1].Select(i => Sent[i])),
        (6, Gen.Select(Gen.Int[0, Sent.Length - 1], Change.Array[1, 3], (i, changes) => changes.Aggregate(Sent[i], (line, change) => change(line)))),
        (2, Piece.Array[0, 8].Select(p => p.SelectMany(b => b).ToArray())),
        (1, Gen.Byte.Array[0, 60])).Select(line => line.Where(b => b != '\n').ToArray());

    /// <summary>
    /// Whether the line ends a conversation that was understood before: it contains a zero byte, or a CR that is not its last byte, or it begins another
    /// protocol, within the
    /// length of one line.
    /// </summary>
    /// <remarks>Written from proto/README.md, not from the framer.</remarks>
    public static bool IsForeign(byte[] line)
    {
        const int Reach = 513;
        if (line.Length > 0 && line[0] == 0x16)
        {
            return true;
        }

        var first = Array.FindIndex(line, b => b is 0 or (byte)'\r');
        if (first >= 0 && first < Reach && !(line[first] == '\r' && first == line.Length - 1))
        {
            return true;
        }

        var text = Encoding.Latin1.GetString(line, 0, Math.Min(line.Length, Reach));
        text = text.EndsWith('\r') ? text[..^1] : text;
        var method = Regex.IsMatch(text, @"\A(GET|POST|PUT|HEAD|DELETE|OPTIONS|PATCH|CONNECT|TRACE|PRI) ");
        return (method && (text.Length >= Reach || text.Contains(" HTTP/", StringComparison.Ordinal)))
            || Regex.IsMatch(text, @"\A[-!#$%&'*+.^_`|~0-9A-Za-z]+:|. HTTP/...\z");
    }

    /// <summary>Whether the line is a goodbye that is understood.</summary>
    public static bool IsGoodbye(string reply) => reply.StartsWith("ok", StringComparison.Ordinal) && reply.Split(' ')[^1] == "bye";

    private static Func<byte[], byte[]> Of(int what, int at, int length, byte[] piece) => line =>
    {
        var from = line.Length == 0 ? 0 : at % line.Length;
        var to = Math.Min(line.Length, from + length);
        return what switch
        {
            0 => [.. line[..from], .. line[to..]],
            1 => [.. line[..to], .. line[from..]],
            2 => [.. line[to..], .. line[from..to], .. line[..from]],
            3 => [.. line[..from], .. piece, .. line[from..]],
            4 => line[..from],
            5 => [.. line, .. Sent[at % Sent.Length]],
            6 => [.. line.Select((b, i) => i >= from && i < to && char.IsAsciiLetter((char)b) ? (byte)(b ^ 0x20) : b)],
            7 => [.. line[..from], .. piece, .. line[to..]],
            8 => [.. line.Select((b, i) => i == from ? (byte)(b ^ (1 << (length % 8))) : b)],
            _ => [.. line, .. piece],
        };
    };
}
