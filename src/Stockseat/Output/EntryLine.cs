using System.Text;
using System.Text.Json;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Output;

/// <summary>
/// An entry as one line of JSON that holds its body byte for byte: the text between <c>"body":</c> and the last brace is what was hashed. So the chain can be
/// checked from an export alone.
/// </summary>
internal static class EntryLine
{
    /// <summary>One entry, with the end of its line.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="onTerminal">Whether people look at it: then control characters in a forged body can't move the cursor or reverse the line.</param>
    public static string Of(EntryRow entry, bool onTerminal)
    {
        var (hash, body) = (EntryView.Hash(entry), onTerminal ? Plain.Text(entry.Body) : entry.Body);
        return IsOneObject(body)
            ? $"{{\"hash\":\"{hash}\",\"body\":{body}}}\n"
            : $"{{\"hash\":\"{hash}\",\"serial\":{entry.Serial},\"notJson\":\"{JsonEncodedText.Encode(body)}\"}}\n"; // somebody changed it
    }

    private static bool IsOneObject(string body)
    {
        if (body.AsSpan().ContainsAny('\n', '\r') || !body.StartsWith('{'))
        {
            return false;
        }

        try
        {
            var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(body));
            while (reader.Read())
            {
            }

            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
