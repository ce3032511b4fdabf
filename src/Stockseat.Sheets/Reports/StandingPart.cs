using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>What was in force for each fixture at the instant.</summary>
internal static class StandingPart
{
    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "standing", "The fixtures at the instant", () =>
    {
        if (context.Review.Fixtures.Count == 0)
        {
            html.Text("p", "The ledger knows of no fixture that these minutes concern.");
        }

        foreach (var fixture in context.Review.Fixtures)
        {
            html.Text("h3", fixture.Fixture);
            html.In("dl", "", () => One(html, context, fixture));
        }
    });

    private static void One(HtmlWriter html, ReportContext context, FixtureThen fixture)
    {
        var clock = context.Clock;
        if (fixture.Adopted is { } adopted)
        {
            ReportParts.Fact(
                html, "revision", $"{(adopted.Revision is { } number ? PrintedNumbers.Whole(number) : "?")} in force, digest "
                    + $"{PrintedNumbers.Short(adopted.Digest ?? "not in the entry")}");
            ReportParts.Fact(
                html,
                "adopted", ($"{clock.Full(adopted.At)} by {adopted.By}{(adopted.Automatic ? " (by the service itself)" : "")}: {adopted.Why}; entry ", null),
                context.Entry(adopted.Serial));
        }
        else
        {
            ReportParts.Fact(html, "revision", "none was in force, so asks were refused");
        }

        if (fixture.Measurement is { } m)
        {
            ReportParts.Fact(html, "measurement", ($"{EntryText.Measured(m, context.Unit)}; {clock.Full(m.At)}, entry ", null), context.Entry(m.Serial));
        }
        else
        {
            ReportParts.Fact(html, "measurement", $"none was valid{(fixture.NoMeasurement is { Length: > 0 } why ? $": {why}" : "")}");
        }

        if (fixture.Load is not null)
        {
            ReportParts.Fact(html, "nests", fixture.Load);
        }

        if (fixture.Holds.Count == 0)
        {
            ReportParts.Fact(html, "holds", "none");
        }

        foreach (var hold in fixture.Holds)
        {
            ReportParts.Fact(html, "held", ($"by {hold.By} since {clock.Full(hold.At)}: {hold.Why}; entry ", null), context.Entry(hold.Serial));
        }

        if (fixture.Missed is { } missed)
        {
            ReportParts.Fact(
                html, "recheck", ($"{EntryText.Recheck(missed, context.Unit)}; {clock.Full(missed.At)}, entry ", null), context.Entry(missed.Serial));
        }

        if (fixture.LastAnswer is { } answer)
        {
            ReportParts.Fact(
                html, "last answer", ("entry ", null), context.Entry(answer.Serial), (
                    $", {clock.Full(answer.At)}, to {answer.Client ?? answer.Address ?? "an unnamed client"}: {EntryText.Ask(answer.Purpose, answer.Nest)} at "
                        + $"{context.Unit.Text(answer.Diameter)}, {EntryText.Shift(answer, context.Unit)}; "
                        + $"{(fixture.LastConfirmedBy is null ? Unconfirmed(context, answer) : "confirmed by entry ")}",
                        null), fixture.LastConfirmedBy is { } by ? context.Entry(by) : ("", null));
        }
        else
        {
            ReportParts.Fact(html, "last answer", "none was found before the instant");
        }
    }

    private static string Unconfirmed(ReportContext context, AnswerBody answer) =>
        context.Review.Answers.FirstOrDefault(a => a.Answer.Serial == answer.Serial)?.Misread is [.., var misread]
            ? $"never confirmed: entry {PrintedNumbers.Whole(misread.Serial)} refused it" : "no confirmation found";
}
