using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Stockseat.Fixtures.Canonical;

/// <summary>JSON in the one canonical form of RFC 8785: members sorted by UTF-16 code units, no white space, numbers as ECMAScript writes them.</summary>
public static class CanonicalJson
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The canonical text of a value, in UTF-8.</summary>
    /// <param name="node">The value; null is the JSON null.</param>
    /// <exception cref="EncoderFallbackException">A text has half of a surrogate pair, which can't be written in UTF-8 (RFC 8785 §3.2.2.2).</exception>
    public static byte[] Write(JsonNode? node)
    {
        var text = new StringBuilder();
        Append(text, node);
        return Strict.GetBytes(text.ToString());
    }

    /// <summary>A number as ECMAScript's Number::toString writes it (RFC 8785 §3.2.2.3).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite: JSON has no such number.</exception>
    public static string Number(double value)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, "JSON has no such number");
        }

        if (value == 0)
        {
            return "0";
        }

        // The shortest digits that round-trip, such as 0.002, 4.5 or 1.5E-27.
        var parts = Math.Abs(value).ToString("R", CultureInfo.InvariantCulture).Split('E');
        var exponent = parts.Length == 1 ? 0 : int.Parse(parts[1], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        var whole = parts[0].IndexOf('.', StringComparison.Ordinal);
        var digits = parts[0].Replace(".", "", StringComparison.Ordinal);
        var significant = digits.TrimStart('0');
        var point = (whole < 0 ? digits.Length : whole) + exponent - (digits.Length - significant.Length);
        return (value < 0 ? "-" : "") + Place(significant.TrimEnd('0'), point);
    }

    private static string Place(string digits, int point)
    {
        var count = digits.Length;
        if (point is > 0 and <= 21)
        {
            return count <= point ? digits.PadRight(point, '0') : $"{digits[..point]}.{digits[point..]}";
        }

        if (point is > -6 and <= 0)
        {
            return $"0.{new string('0', -point)}{digits}";
        }

        var exponent = (point - 1).ToString("+0;-0", CultureInfo.InvariantCulture);
        return count == 1 ? $"{digits}e{exponent}" : $"{digits[..1]}.{digits[1..]}e{exponent}";
    }

    private static void Append(StringBuilder text, JsonNode? node)
    {
        switch (node)
        {
            case null:
                text.Append("null");
                break;
            case JsonObject members:
                Join(text, '{', members.OrderBy(m => m.Key, StringComparer.Ordinal), '}', m =>
                {
                    Quote(text, m.Key);
                    text.Append(':');
                    Append(text, m.Value);
                });
                break;
            case JsonArray items:
                Join(text, '[', items, ']', item => Append(text, item));
                break;
            default:
                Scalar(text, node);
                break;
        }
    }

    private static void Scalar(StringBuilder text, JsonNode node)
    {
        switch (node.GetValueKind())
        {
            case JsonValueKind.String:
                Quote(text, node.GetValue<string>());
                break;
            case JsonValueKind.Number:
                text.Append(Number(node.AsValue().TryGetValue<int>(out var whole) ? whole : node.GetValue<double>()));
                break;
            case var kind:
                text.Append(kind == JsonValueKind.True ? "true" : "false");
                break;
        }
    }

    private static void Join<T>(StringBuilder text, char open, IEnumerable<T> items, char close, Action<T> append)
    {
        text.Append(open);
        var first = true;
        foreach (var item in items)
        {
            if (!first)
            {
                text.Append(',');
            }

            first = false;
            append(item);
        }

        text.Append(close);
    }

    private static void Quote(StringBuilder text, string value)
    {
        text.Append('"');
        foreach (var c in value)
        {
            _ = c switch
            {
                '"' => text.Append("\\\""),
                '\\' => text.Append("\\\\"),
                '\b' => text.Append("\\b"),
                '\t' => text.Append("\\t"),
                '\n' => text.Append("\\n"),
                '\f' => text.Append("\\f"),
                '\r' => text.Append("\\r"),
                < ' ' => text.Append("\\u").Append(((int)c).ToString("x4", CultureInfo.InvariantCulture)),
                _ => text.Append(c),
            };
        }

        text.Append('"');
    }
}
