using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Cli.Output.Shapes;

namespace Stockseat.Cli.Output.Reviews;

/// <summary>A review for machines: one object. Lengths in metres, instants as entries have them; what is not known is absent.</summary>
internal static class ReviewJson
{
    public static ReviewShape Of(Review r) => new(
        r.Ledger, r.HeadSerial, r.HeadHash, EntryTime.Text(r.At), EntryTime.Text(r.From), EntryTime.Text(r.To),
        new(r.Question.JumpMetres, r.Question.Serial, r.Question.Fixture, r.Question.Cell), r.Then, r.Summary, r.Headlines.Select(Of), r.Findings.Select(Of),
        r.Changes.Select(Of), r.Fixtures.Select(Of),
        r.Answers.Select(Of), r.Entries.Select(e => EntryView.Of(e.Row)), r.LeftOut, r.Older.Select(e => EntryView.Of(e.Row)),
        r.Adoptions.Select(a => a.Serial), new(r.Evidence.ChainFault is null, r.Evidence.ChainFault, r.Evidence.Plant),
        r.Evidence.Whole is { } whole ? VerificationView.Of(whole) : null, ReplayView.Of(r.Evidence.Replay));

    private static ReviewFindingShape Of(ReviewFinding f) =>
        new(f.Rule.Name(), f.Serials, f.What, f.Why, f.Next, f.Fixture, f.MovedMetres, f.BelowResolution, f.OnLastAnswer);

    private static ReviewHeadlineShape Of(ReviewHeadline h) => new(h.Fixture, h.Text, Of(h.Before), Of(h.After));

    private static StockAnsweredShape? Of(StockAnswered? s) => s is null ? null : new(s.Serial, s.DiameterMetres, s.Lot, s.Revision);

    private static AdoptionChangesShape Of(AdoptionChanges a) =>
        new(a.Serial, a.Fixture, a.Before, a.After, a.Changes.Select(c => new AdoptionChangeShape(c.Key, c.Before, c.After, c.Unit)));

    private static FixtureThenShape Of(FixtureThen f) => new(
        f.Fixture, f.Holds.Select(h => new HoldShape(h.By, h.Why, h.Serial, EntryTime.Text(h.At))), f.Adopted?.Revision, f.Adopted?.Digest, f.Adopted?.Serial,
        f.Measurement?.Serial, f.NoMeasurement, f.Emptied?.Serial, f.Missed?.Serial, f.LastAnswer?.Serial, f.LastConfirmedBy, f.Load);

    private static ServedAnswerShape Of(ServedAnswer a) => new(
        a.Answer.Serial, (a.Between ?? []).Select(b => b.Serial), a.Misread.Select(m => m.Serial), a.Answer.Measurement, a.Before?.Serial, a.Change,
        a.ChangeMetres, a.ConfirmedBy, a.Follows);
}
