using System.Buffers;
using System.Globalization;
using System.Text.Json;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Snapshots;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;

namespace Stockseat.Ledger.Verifying;

/// <summary>Judges whether a snapshot carries exactly the entries that it has to carry, byte for byte.</summary>
public static class SnapshotJudge
{
    private const int MostNamed = 3;

    /// <summary>How the snapshot differs, in words; null when it does not.</summary>
    /// <param name="serial">The serial of the snapshot, from its place.</param>
    /// <param name="body">Its body.</param>
    /// <param name="before">The entries before it.</param>
    public static string? Fault(long serial, ReadOnlySpan<byte> body, CarriedEntries before)
    {
        IReadOnlyList<JsonElement> expected;
        try
        {
            before.Choose();
            expected = before.Chosen();
        }
        catch (Exception e) when (e is JsonException or InvalidDataException)
        {
            return $"what counts before it can't be found out: {e.Message}";
        }

        try
        {
            // When the bytes are the same, they need not be read: reading is most of the work for a snapshot.
            var (version, at) = HeadOf(body);
            return body.SequenceEqual(Bytes(new() { Version = version, Serial = serial, At = at, Carried = expected })) ? null
                : BodyJson.Read(Kinds.Snapshot, body) is SnapshotBody recorded ? Difference(recorded.Carried, expected) : "it is not a snapshot";
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return $"it can't be read: {e.Message}";
        }
    }

    /// <summary>The version and the instant in a body; 0 and empty when they are not where every body has them.</summary>
    private static (int Version, string At) HeadOf(ReadOnlySpan<byte> body)
    {
        var version = 0;
        var reader = new Utf8JsonReader(body);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var (isVersion, isInstant) = (reader.ValueTextEquals("v"u8), reader.ValueTextEquals("at"u8));
            reader.Read();
            if (isInstant)
            {
                return (version, reader.TokenType == JsonTokenType.String ? reader.GetString()! : "");
            }

            if (isVersion && reader.TokenType == JsonTokenType.Number)
            {
                _ = reader.TryGetInt32(out version);
            }

            reader.Skip();
        }

        return (version, "");
    }

    private static ReadOnlySpan<byte> Bytes(SnapshotBody body)
    {
        var buffer = new ArrayBufferWriter<byte>(4096);
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { SkipValidation = true }))
        {
            BodyJson.Write(json, body);
        }

        return buffer.WrittenSpan;
    }

    private static string Difference(IReadOnlyList<JsonElement> recorded, IReadOnlyList<JsonElement> expected)
    {
        var (has, should) = (recorded.Select(Serial).ToList(), expected.Select(Serial).ToList());
        string[] said =
        [
            .. Named("it leaves out", should.Except(has)),
            .. Named("it carries", has.Except(should), ", which no longer counts or never did"),
            .. Named("it carries changed bytes of",
                recorded.Where(r => expected.Any(e => Serial(e) == Serial(r) && e.GetRawText() != r.GetRawText())).Select(Serial)),
        ];
        return said.Length > 0 ? string.Join("; ", said) : "its bytes are written differently, or in another order";
    }

    private static long Serial(JsonElement body) => CarriedBody.SerialOf(body);

    private static IEnumerable<string> Named(string what, IEnumerable<long> serials, string more = "")
    {
        var all = serials.ToList();
        var named = string.Join(", ", all.Take(MostNamed).Select(s => s.ToString(CultureInfo.InvariantCulture)));
        return all.Count == 0 ? []
            : [$"{what} {(all.Count == 1 ? "entry" : "entries")} {named}{(all.Count > MostNamed ? $" and {all.Count - MostNamed} more" : "")}{more}"];
    }
}
