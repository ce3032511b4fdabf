using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Cli.Output;

/// <summary>An entry as it is shown, for people and for machines.</summary>
internal static class EntryView
{
    public static string[] Columns(Display display) => ["serial", $"at ({display.Times.Name})", "kind", "fixture", "rev", "client", "tag", "what"];

    /// <summary>For machines: the body, with its hash.</summary>
    public static EntryShape Of(EntryRow entry) => new(entry.Serial, Hash(entry), Parse(entry.Body));

    public static IReadOnlyList<string> ToRow(EntryRow entry, Display display) =>
        [
            entry.Serial.ToString(CultureInfo.InvariantCulture), display.Times.Of(entry.At), entry.Kind, entry.Fixture ?? "", Revision(entry),
            entry.Client ?? "", entry.Tag ?? "", What(entry, display.Length),
        ];

    public static string Revision(EntryRow entry) => entry.Revision?.ToString(CultureInfo.InvariantCulture) ?? "";

    public static string Hash(EntryRow entry) => Convert.ToHexStringLower(entry.Hash);

    private static JsonNode? Parse(string body)
    {
        try
        {
            var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(body));
            while (reader.Read())
            {
                // An escaped half of a surrogate pair is valid JSON, but can't be written again.
                _ = reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName && reader.ValueIsEscaped ? reader.GetString() : null;
            }

            return JsonNode.Parse(body);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return JsonValue.Create(body);
        }
    }

    private static string What(EntryRow entry, LengthUnit unit)
    {
        try
        {
            var body = BodyJson.Read(entry.Kind, Encoding.UTF8.GetBytes(entry.Body));
            var digest = body is AnswerBody or RevisionAdoptedBody ? $"; digest {PrintedNumbers.Short(body.Digest!)}" : "";
            return (EntryText.Of(body, unit) + digest).Replace('\u2212', '-'); // the minus of keyboards and programs
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // Somebody who can write the file can write anything into a body.
            return "its body can't be read: run stockseat ledger verify";
        }
    }
}
