using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Notes;

/// <summary>Somebody notes in their own words what happened.</summary>
internal sealed class NoteVerb : Verb<NoteAsk, NoteBody>
{
    public override string Name => NoteAsk.VerbName;

    public override EntryKind? Kind { get; } = new NoteKind();

    protected override EntryBody Decide(NoteAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var refusal = ask.Denied ?? (ask.Fixture.Length > 0 && situation.Find(ask.Fixture) is null ? Unserved.Unknown(ask.Fixture) : null);
        return refusal is null
            ? new NoteBody
            {
                Fixture = ask.Fixture.Length == 0 ? null : ask.Fixture, By = ask.By, Text = ask.Text, Entry = ask.Entry,
                Instant = ask.Instant is { } instant ? EntryTime.Text(instant) : null,
            }
            : ask.Refuse(refusal) with { By = ask.By, Note = ask.Text };
    }

    protected override NoteAsk AskOf(NoteBody b) => new(Caller.Of(b), b.Fixture ?? "")
    {
        By = b.By, Text = b.Text, Entry = b.Entry, Instant = b.Instant is { } instant ? EntryTime.Parse(instant) : null,
    };

    protected override NoteAsk? AskOfRefused(RefusalBody b) =>
        b is not { By: { } by, Note: { } text } ? null : new(Caller.Of(b), b.Fixture ?? "") { By = by, Text = text };

    protected override bool IsSame(NoteAsk a, NoteBody b) => (a.Fixture, a.By, a.Text, a.Entry) == (b.Fixture ?? "", b.By, b.Text, b.Entry);

    protected override bool IsSameRefused(NoteAsk a, RefusalBody r) => (a.By, a.Text) == (r.By, r.Note);

    protected override string? Lapsed(NoteBody first, DecidedAfresh now) => null;
}
