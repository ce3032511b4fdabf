using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Cli.Output.Reviews;

/// <summary>A review for machines: one object. Lengths in metres, instants as entries have them; what is not known is absent.</summary>
internal static class ReviewJson
{
    public static JsonObject Of(Review r) => new()
    {
        ["ledger"] = r.Ledger,
        ["headSerial"] = r.HeadSerial,
        ["headHash"] = r.HeadHash,
        ["at"] = EntryTime.Text(r.At),
        ["from"] = EntryTime.Text(r.From),
        ["to"] = EntryTime.Text(r.To),
        ["asked"] = new JsonObject { ["jump"] = r.Question.JumpMetres }.With("serial", r.Question.Serial).With("fixture", r.Question.Fixture).With("cell", r.Question.Cell),
        ["then"] = r.Then,
        ["summary"] = Json.Array(r.Summary, s => JsonValue.Create(s)!),
        ["findings"] = Json.Array(r.Findings, Of),
        ["fixtures"] = Json.Array(r.Fixtures, Of),
        ["answers"] = Json.Array(r.Answers, Of),
        ["entries"] = Json.Array(r.Entries, Of),
        ["leftOut"] = r.LeftOut,
        ["older"] = Json.Array(r.Older, Of),
        ["adoptions"] = Json.Array(r.Adoptions, a => JsonValue.Create(a.Serial)),
        ["chain"] = new JsonObject { ["follows"] = r.Evidence.ChainFault is null }.With("fault", r.Evidence.ChainFault),
        ["whole"] = r.Evidence.Whole is { } whole ? VerificationView.ToJson(whole) : null,
        ["replay"] = ReplayView.ToJson(r.Evidence.Replay),
    };

    private static JsonObject Of(ReviewFinding f) => new JsonObject
    {
        ["rule"] = f.Rule.Name(),
        ["serials"] = Json.Array(f.Serials, s => JsonValue.Create(s)),
        ["what"] = f.What,
        ["why"] = f.Why,
        ["next"] = f.Next,
    }.With("fixture", f.Fixture);

    private static JsonObject Of(FixtureThen f) => new JsonObject
    {
        ["fixture"] = f.Fixture,
        ["holds"] = Json.Array(f.Holds, h => new JsonObject { ["by"] = h.By, ["why"] = h.Why, ["serial"] = h.Serial, ["at"] = EntryTime.Text(h.At) }),
    }.With("revision", f.Adopted?.Revision).With("digest", f.Adopted?.Digest).With("adopted", f.Adopted?.Serial).With("measurement", f.Measurement?.Serial)
        .With("noMeasurement", f.NoMeasurement).With("emptied", f.Emptied?.Serial).With("missed", f.Missed?.Serial).With("lastAnswer", f.LastAnswer?.Serial).With("lastConfirmedBy", f.LastConfirmedBy);

    private static JsonObject Of(ServedAnswer a) => new JsonObject
    {
        ["serial"] = a.Answer.Serial,
        ["between"] = Json.Array(a.Between ?? [], b => JsonValue.Create(b.Serial)),
        ["misread"] = Json.Array(a.Misread, m => JsonValue.Create(m.Serial)),
    }.With("measurement", a.Answer.Measurement).With("before", a.Before?.Serial).With("change", a.Change is null ? null : Json.Array(a.Change, c => JsonValue.Create(c)))
        .With("changeLength", a.ChangeMetres).With("confirmedBy", a.ConfirmedBy).With("follows", a.Follows);

    private static JsonObject Of(ReviewEntry e) => EntryView.Of(e.Row).ToJson();

    /// <summary>What is not known is absent.</summary>
    private static JsonObject With(this JsonObject value, string name, JsonNode? known)
    {
        if (known is not null)
        {
            value[name] = known;
        }

        return value;
    }
}
