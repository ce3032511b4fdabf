using System.Numerics;
using System.Runtime.Intrinsics;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Passes over JSON without blanks, escapes and bytes beyond ASCII. It passes only valid JSON as in RFC 8259; false means nothing, and the framework's reader
/// decides. That reader returns each token; here no tokens are needed, and a body is passed in a fraction of the time.
/// </summary>
internal static class PlainJson
{
    // Less deep than the reader allows, which is 64.
    private const int Deepest = 32;

    /// <summary>Passes a value.</summary>
    /// <param name="text">The body.</param>
    /// <param name="at">Where the value begins; afterwards where it ends.</param>
    /// <param name="depth">In how many objects and arrays the value lies.</param>
    public static bool Value(ReadOnlySpan<byte> text, ref int at, int depth = 1)
    {
        if (at >= text.Length)
        {
            return false;
        }

        return text[at] switch
        {
            (byte)'"' => String(text, ref at),
            (byte)'{' => depth < Deepest && Members(text, ref at, depth + 1),
            (byte)'[' => depth < Deepest && Elements(text, ref at, depth + 1),
            (byte)'t' => Word(text, ref at, "true"u8),
            (byte)'f' => Word(text, ref at, "false"u8),
            (byte)'n' => Word(text, ref at, "null"u8),
            _ => Number(text, ref at),
        };
    }

    private static bool Members(ReadOnlySpan<byte> text, ref int at, int depth)
    {
        if (Ends(text, ref at, '}'))
        {
            return true;
        }

        do
        {
            if (!Name(text, ref at) || !Value(text, ref at, depth) || at >= text.Length)
            {
                return false;
            }
        }
        while (text[at++] == ',');

        return text[at - 1] == '}';
    }

    private static bool Elements(ReadOnlySpan<byte> text, ref int at, int depth)
    {
        if (Ends(text, ref at, ']'))
        {
            return true;
        }

        do
        {
            if (!Value(text, ref at, depth) || at >= text.Length)
            {
                return false;
            }
        }
        while (text[at++] == ',');

        return text[at - 1] == ']';
    }

    /// <summary>Enters an object or an array; returns whether it was empty, and so passed already.</summary>
    private static bool Ends(ReadOnlySpan<byte> text, ref int at, char end)
    {
        at++;
        if (at >= text.Length || text[at] != end)
        {
            return false;
        }

        at++;
        return true;
    }

    /// <summary>Passes a name and its colon.</summary>
    public static bool Name(ReadOnlySpan<byte> text, ref int at)
    {
        if (at >= text.Length || text[at] != '"' || !String(text, ref at) || at >= text.Length || text[at] != ':')
        {
            return false;
        }

        at++;
        return true;
    }

    /// <summary>Passes a string, many bytes at a time: up to the first byte that ends it or is not a plain character.</summary>
    private static bool String(ReadOnlySpan<byte> text, ref int at)
    {
        var i = at + 1;
        for (; i + Vector256<byte>.Count <= text.Length; i += Vector256<byte>.Count)
        {
            var bytes = Vector256.Create(text.Slice(i, Vector256<byte>.Count));
            var others = Vector256.Equals(bytes, Vector256.Create((byte)'"')) | Vector256.Equals(bytes, Vector256.Create((byte)'\\'))
                | Vector256.LessThan(bytes.AsSByte(), Vector256.Create((sbyte)' ')).AsByte(); // Bytes beyond ASCII are below 0.
            if (others.ExtractMostSignificantBits() is var bits && bits != 0)
            {
                i += BitOperations.TrailingZeroCount(bits);
                at = i + 1;
                return text[i] == '"';
            }
        }

        while (i < text.Length && text[i] is >= (byte)' ' and <= (byte)'~' and not (byte)'"' and not (byte)'\\')
        {
            i++;
        }

        at = i + 1;
        return i < text.Length && text[i] == '"';
    }

    private static bool Word(ReadOnlySpan<byte> text, ref int at, ReadOnlySpan<byte> word)
    {
        var found = text[at..].StartsWith(word);
        at += word.Length;
        return found;
    }

    /// <summary>Passes a number as in RFC 8259, section 6.</summary>
    private static bool Number(ReadOnlySpan<byte> text, ref int at)
    {
        if (Decimal(text, at) is var end && end > 0)
        {
            at = end;
            return true;
        }

        var i = at;
        if (text[i] == '-')
        {
            i++;
        }

        var begin = i;
        if (!Digits(text, ref i) || (text[begin] == '0' && i > begin + 1))
        {
            return false;
        }

        if (i < text.Length && text[i] == '.')
        {
            i++;
            if (!Digits(text, ref i))
            {
                return false;
            }
        }

        if (i < text.Length && text[i] is (byte)'e' or (byte)'E')
        {
            i++;
            if (i < text.Length && text[i] is (byte)'+' or (byte)'-')
            {
                i++;
            }

            if (!Digits(text, ref i))
            {
                return false;
            }
        }

        at = i;
        return true;
    }

    /// <summary>Where a number without exponent ends, found by one look at many bytes; 0: not known.</summary>
    private static int Decimal(ReadOnlySpan<byte> text, int at)
    {
        at += text[at] == '-' ? 1 : 0;
        if (at + Vector256<byte>.Count > text.Length)
        {
            return 0;
        }

        var values = Vector256.Create(text.Slice(at, Vector256<byte>.Count)) - Vector256.Create((byte)'0');
        ulong others = ~Vector256.Equals(Vector256.Min(values, Vector256.Create((byte)9)), values).ExtractMostSignificantBits();
        var whole = BitOperations.TrailingZeroCount(others);
        if (whole == 0 || whole >= Vector256<byte>.Count || (whole > 1 && text[at] == '0'))
        {
            return 0;
        }

        at += whole;
        if (text[at] == '.')
        {
            var part = BitOperations.TrailingZeroCount(others >> (whole + 1));
            if (part == 0 || whole + 1 + part >= Vector256<byte>.Count)
            {
                return 0;
            }

            at += 1 + part;
        }

        return text[at] is (byte)'e' or (byte)'E' ? 0 : at;
    }

    private static bool Digits(ReadOnlySpan<byte> text, ref int at)
    {
        var i = at;
        while (i < text.Length && IsDigit(text[i]))
        {
            i++;
        }

        var any = i > at;
        at = i;
        return any;
    }

    private static bool IsDigit(byte b) => (uint)(b - '0') <= 9;
}
