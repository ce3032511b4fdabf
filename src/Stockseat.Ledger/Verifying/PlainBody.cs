using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Quickly recognizes the many bodies that are plainly right: JSON without blanks, escapes and bytes beyond ASCII, as the writer makes it, and with every
/// column a copy of its value. One pass over the bytes. A body that it does not recognize may still be right; <see cref="BodyReading"/> decides.
/// </summary>
internal static class PlainBody
{
    // More digits might not fit into a long.
    private const int MostDigits = 18;

    /// <summary>Whether the body is right, of the present version, and every column a copy of its value; false: not known.</summary>
    public static bool Holds(in EntryBytes row)
    {
        var text = row.Body;
        if (text.Length < 2 || text[0] != '{')
        {
            return false;
        }

        var (at, seen) = (1, 0);
        while (true)
        {
            var begin = at;
            if (!PlainJson.Name(text, ref at))
            {
                return false;
            }

            var field = BodyReading.Field(text[(begin + 1)..(at - 2)]);
            begin = at;
            if (!PlainJson.Value(text, ref at) || at >= text.Length)
            {
                return false;
            }

            if (field >= 0)
            {
                if ((seen & (1 << field)) != 0 || !Copies(text[begin..at], row, field))
                {
                    return false;
                }

                seen |= 1 << field;
            }

            if (text[at++] != ',')
            {
                return text[at - 1] == '}' && at == text.Length && seen == BodyReading.Expected(row);
            }
        }
    }

    private static bool Copies(ReadOnlySpan<byte> value, in EntryBytes row, int field) => field switch
    {
        BodyReading.Version => EntryBody.Knows(Number(value)),
        0 => Number(value) == row.Serial,
        4 => row.HasRevision && Number(value) == row.Revision,
        1 => Quotes(value, row.At),
        2 => Quotes(value, row.Kind),
        3 => row.HasFixture && Quotes(value, row.Fixture),
        5 => row.HasClient && Quotes(value, row.Client),
        _ => row.HasTag && Quotes(value, row.Tag),
    };

    private static bool Quotes(ReadOnlySpan<byte> value, ReadOnlySpan<byte> column) => value[0] == '"' && value[1..^1].SequenceEqual(column);

    /// <summary>A whole number of 0 or more; null when the value is something else, or too long.</summary>
    private static long? Number(ReadOnlySpan<byte> value)
    {
        long number = 0;
        foreach (var b in value)
        {
            if (!char.IsAsciiDigit((char)b) || value.Length > MostDigits)
            {
                return null;
            }

            number = (number * 10) + (b - '0');
        }

        return number;
    }
}
