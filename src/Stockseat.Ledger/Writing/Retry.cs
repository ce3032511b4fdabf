using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Writing;

/// <summary>Whether an ask with a known request id is the first one again.</summary>
internal static class Retry
{
    public static bool Same(Ask ask, EntryBody first) => (ask, first) switch
    {
        (_, RefusalBody r) => r.Asked == ask.Verb && (ask.Fixture.Length == 0 || r.Fixture == ask.Fixture),
        (LocateAsk a, AnswerBody b) => a.Fixture == b.Fixture && a.Column == b.Nest[0] && a.Row == b.Nest[1]
            && (a.Purpose == Purpose.Place ? "place" : "pick") == b.Purpose
            && (a.DiameterMetres is { } d ? d == b.Diameter && b.Measurement is null : b.Measurement is not null),
        (MeasureAsk a, MeasurementBody b) => a.Fixture == b.Fixture && a.Lot == b.Lot && a.ReadingsMetres.SequenceEqual(b.Readings),
        (EmptiedAsk a, EmptiedBody b) => a.Fixture == b.Fixture,
        (ConfirmAsk a, ConfirmationBody b) => a.Serial == b.Confirms,
        (AdoptAsk a, RevisionAdoptedBody b) => a.Fixture == b.Fixture && a.Number == b.Revision,
        _ => false,
    };

    public static EntryBody Refuse(Ask ask, EntryBody first)
    {
        var refusal = Refusal.Of(Reason.ValueMalformed, $"request id {ask.Caller.Request} belongs to another request (entry {first.Serial}); use a new id");
        return new RefusalBody
        {
            Asked = ask.Verb,
            Reason = refusal.Info.Name,
            Number = (int)refusal.Reason,
            Text = refusal.Text,
            Fixture = ask.Fixture.Length == 0 ? null : ask.Fixture,
            Client = ask.Caller.Client,
            Cell = ask.Caller.Cell,
            Address = ask.Caller.Address,
            Tag = ask.Caller.Tag,
        };
    }
}
