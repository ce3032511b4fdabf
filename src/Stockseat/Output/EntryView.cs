using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>An entry as it is shown, from a file or from the service.</summary>
internal sealed record EntryView(long Serial, string At, string Kind, string Fixture, string Revision, string Client, string Tag, string Body, string Hash)
{
    public static readonly string[] Columns = ["serial", "at (UTC)", "kind", "fixture", "rev", "client", "tag", "what"];

    public static EntryView Of(EntryRow r) => new(
        r.Serial, r.At, r.Kind, r.Fixture ?? "", r.Revision?.ToString(CultureInfo.InvariantCulture) ?? "", r.Client ?? "", r.Tag ?? "", r.Body, Convert.ToHexStringLower(r.Hash));

    public static EntryView Of(Entry e) => new(
        e.Serial, e.At, e.Kind, e.Fixture, e.Revision == 0 ? "" : e.Revision.ToString(CultureInfo.InvariantCulture), e.Client, e.Tag, e.Body, Convert.ToHexStringLower(e.Hash.Span));

    /// <summary>For machines: the body, with its hash.</summary>
    public JsonObject ToJson() => new() { ["serial"] = Serial, ["hash"] = Hash, ["body"] = Parse() };

    public IReadOnlyList<string> ToRow() => [Serial.ToString(CultureInfo.InvariantCulture), At, Kind, Fixture, Revision, Client, Tag, What()];

    private JsonNode? Parse()
    {
        try
        {
            var reader = new Utf8JsonReader(System.Text.Encoding.UTF8.GetBytes(Body));
            while (reader.Read())
            {
                // Half of a character, escaped, is JSON, and can't be written again.
                _ = reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName && reader.ValueIsEscaped ? reader.GetString() : null;
            }

            return JsonNode.Parse(Body);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return JsonValue.Create(Body);
        }
    }

    private string What()
    {
        try
        {
            return Summary(BodyJson.Read(Kind, System.Text.Encoding.UTF8.GetBytes(Body)));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // Whoever can write the file can write anything into a body.
            return "its body can't be read: run stockseat ledger verify";
        }
    }

    private static string Summary(EntryBody? body) => body switch
    {
        AnswerBody a => $"{a.Purpose} {a.Nest[0]},{a.Nest[1]}: diameter {M(a.Diameter)} m {(a.Measurement is { } m ? $"from measurement {m}" : "stated")}, shift {string.Join(" ", a.ShiftBase.Select(M))} m, first {(a.First ? "yes" : "no")}, digest {a.Digest![..12]}",
        RefusalBody r => $"{r.Asked}: {r.Reason}: {r.Text}",
        MeasurementBody m => $"{M(m.Diameter)} m{(m.Lot is null ? "" : $", lot {m.Lot}")}{(m.Gauge is null ? "" : $", gauge {m.Gauge}")}{(m.Readings.Count > 1 ? $", mean of {m.Readings.Count}" : "")}",
        ConfirmationBody c => $"of answer {c.Confirms}{(c.ReadBack is null ? "" : $", read back {string.Join(" ", c.ReadBack.Select(p => $"{p.Key}={p.Value}"))}")}",
        RecheckBody r => $"by {r.By}: master {Wording.Millimetres(r.Master)} mm in nest {r.Nest[0]},{r.Nest[1]}, miss {(1000 * r.Length).ToString("0.000", CultureInfo.InvariantCulture)} mm: {r.Passed switch { true => "passed", false => r.Refuses ? "missed, asks are refused" : "missed", null => "not judged" }}{(r.Note is null ? "" : $"; {r.Note}")}",
        EmptiedBody => "the measurement is void",
        LotDescribedBody l => $"lot {l.Lot}: {(l.LotTerms is { Least: { } least, Greatest: { } greatest } ? $"{M(least)} to {M(greatest)} m{(l.LotTerms.Tolerance is { } tolerance ? $" ({tolerance})" : "")}" : "a name only")}",
        HeldBody h => $"by {h.By}: {h.Why}",
        ReleasedBody r => $"by {r.By}{(r.Of == r.By ? "" : $", the hold of {r.Of}")}: {r.Why}; {(r.Left == 0 ? "no hold is" : r.Left == 1 ? "1 hold is" : $"{r.Left} holds are")} left",
        RevisionAdoptedBody a => $"by {a.By}: {a.Why}; digest {a.Digest![..12]}",
        RevisionRejectedBody r => string.Join("; ", r.Faults),
        ServiceStartedBody s => $"version {s.Program} on {s.Host}{(s.Ledger is null ? "" : $", ledger {s.Ledger}")}",
        UncleanStopBody u => $"the service before did not stop in order; its last entry is {u.Last}",
        RolledOverBody { Follows: { } follows } r => $"ledger {r.Ledger} goes on after ledger {follows.Ledger}, which ended with {follows.Last}; {r.Carried?.Count ?? 0} entries are carried",
        RolledOverBody r => $"by {r.By}: {r.Why}; ledger {r.Next} goes on",
        ServiceStoppedBody => "in order",
        ClockStepBody c => Step(c),
        SnapshotBody s => $"what holds after entry {s.Serial - 1}; {s.Carried.Count} {(s.Carried.Count == 1 ? "entry is" : "entries are")} carried",
        SealBody s => $"of entry {s.Sealed} and all before it, key {s.Key[..Math.Min(12, s.Key.Length)]}{(s.PublicKey is null ? "" : ", with its public half")}",
        _ => "",
    };

    private static string Step(ClockStepBody step)
    {
        var seconds = Math.Abs(step.Seconds).ToString("0.######", CultureInfo.InvariantCulture);
        return step.Seconds > 0 ? $"the clock was set forward by {seconds} s"
            : $"{(step.AtStart ? $"at a start the clock was {seconds} s behind the last entry" : $"the clock was set back by {seconds} s")}: measurements before it are not used";
    }

    private static string M(double metres) => FixedPoint.Text(metres);
}
