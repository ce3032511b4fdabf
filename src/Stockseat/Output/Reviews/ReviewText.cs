using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Entries;

namespace Stockseat.Cli.Output.Reviews;

/// <summary>A review for people on a terminal.</summary>
internal static class ReviewText
{
    private static string[] AnswerColumns(Display display) =>
    [
        "serial", $"at ({display.Times.Name})", "client", "fixture", "rev", "for", "nest", $"diameter [{display.Length}]", "from",
        $"bx by bz [{display.Length}]", $"moved by [{display.Length}]", "first", "confirmed",
    ];

    /// <summary>Prints a review.</summary>
    public static void Print(Review review, Display display)
    {
        var times = display.Times;
        Plain.Line(
            $"The minutes around {times.Second(review.At)}{Utc(display, review.At)}, from {times.Second(review.From)} to {times.Second(review.To)}; ledger "
                + $"{review.Ledger}, head {review.HeadSerial}");
        if (review.Question is { Fixture: not null } or { Cell: not null })
        {
            string?[] only = [review.Question.Fixture is { } f ? $"fixture {f}" : null, review.Question.Cell is { } c ? $"cell {c}" : null];
            Plain.Line($"Only what concerns {string.Join(" and ", only.OfType<string>())}");
        }

        foreach (var sentence in review.Summary)
        {
            Plain.Line(sentence);
        }

        Findings(review, display);
        Changes(review, display);
        Stood(review, display);
        Answers(review, display);
        Entries(review, display);
        Trust(review.Evidence);
        Head("Cautions");
        Plain.Line("This review is not a release to restart. It shows what the ledger knows, not what is in the nests now, nor what the robot did.");
        foreach (var caution in Caution.Full("Stockseat"))
        {
            Plain.Line(caution);
        }
    }

    private static void Findings(Review review, Display display)
    {
        Head(review.Findings.Count == 0 ? "No findings" : "What to look at");
        for (var i = 0; i < review.Findings.Count; i++)
        {
            var f = review.Findings[i];
            string?[] about =
            [
                f.MovedMetres is > 0 and { } moved ? $"up to {display.Length.FixedText(moved)} off" : null,
                f.Serials.Count == 0 ? null : $"entr{(f.Serials.Count == 1 ? "y" : "ies")} {Serials(f.Serials)}",
            ];
            var said = string.Join("; ", about.OfType<string>());
            Plain.Line($"{i + 1}. {f.Rule.Name()}{(said.Length == 0 ? "" : $" ({said})")}: {f.What}");
            Plain.Line($"   why: {f.Why}");
            Plain.Line($"   next: {f.Next}");
        }
    }

    private static void Changes(Review review, Display display)
    {
        foreach (var adoption in review.Changes)
        {
            Head($"What revision {adoption.After} of {adoption.Fixture} changed, compared with revision {adoption.Before} (entry {adoption.Serial})"
                + (adoption.Changes.Count == 0 ? ": nothing but the number" : ""));
            if (adoption.Changes.Count > 0)
            {
                Plain.Table(["key", "before", "after"], adoption.Changes.Select(c =>
                {
                    var (before, after) = ChangeText.Of(c, display.Length);
                    return (IReadOnlyList<string>)[c.Key, before, after];
                }));
            }
        }
    }

    private static void Stood(Review review, Display display)
    {
        var (unit, times) = (display.Length, display.Times);
        Head($"How things stood then{(review.Then == 0 ? ": nothing was recorded yet" : $", after entry {review.Then}")}");
        foreach (var f in review.Fixtures)
        {
            Plain.Line(
                f.Adopted is { } a ? $"{f.Fixture}: revision {a.Revision}, digest {a.Digest![..12]}, adopted {times.Second(EntryTime.Parse(a.At))} "
                    + $"by {a.By} (entry {a.Serial}): {a.Why}" : $"{f.Fixture}: no revision was in force");
            Plain.Line(
                f.Measurement is { } m ? $"   measured {unit.FixedText(m.Diameter)} at "
                    + $"{times.Second(EntryTime.Parse(m.At))}{(m.Gauge is null ? "" : $" by {m.Gauge}")}{(m.Lot is null ? "" : $", lot {m.Lot}")} "
                    + $"(entry {m.Serial})"
                    : $"   there was no measurement: {f.NoMeasurement}");
            if (f.Load is not null)
            {
                Plain.Line($"   nests: {f.Load}");
            }

            foreach (var hold in f.Holds)
            {
                Plain.Line($"   held by {hold.By} since {times.Second(hold.At)} (entry {hold.Serial}): {hold.Why}");
            }

            if (f.Missed is { } miss)
            {
                Plain.Line($"   a recheck had missed by {unit.FixedText(miss.Length)} (entry {miss.Serial})");
            }

            Plain.Line(
                f.LastAnswer is { } l ? $"   last answer {l.Serial} at {times.Second(EntryTime.Parse(l.At))}: {l.Purpose} at "
                    + $"{unit.FixedText(l.Diameter)}, shift {Shift(l.ShiftBase, unit)} {unit}" : "   no answer before then was found");
        }
    }

    private static void Answers(Review review, Display display)
    {
        if (review.Answers.Count > 0)
        {
            Head("Answers");
            Plain.Table(AnswerColumns(display), review.Answers.Select(a => Row(a, display)));
        }
    }

    private static IReadOnlyList<string> Row(ServedAnswer a, Display display) =>
    [
        Whole(a.Answer.Serial), display.Times.Clock(a.Answer.At), a.Answer.Client ?? "", a.Answer.Fixture ?? "", Whole(a.Answer.Revision ?? 0),
        a.Answer.Purpose,
        $"{a.Answer.Nest[0]},{a.Answer.Nest[1]}",
        display.Length.Fixed(a.Answer.Diameter), a.Answer.Measurement is { } m ? $"measurement {m}" : "stated", Shift(a.Answer.ShiftBase, display.Length),
        a.ChangeMetres is { } c ? display.Length.Fixed(c) : "",
        a.Answer.First ? "yes" : "no",
        a.ConfirmedBy is { } by ? Whole(by) : a.Misread.Count > 0 ? $"misread {Serials([.. a.Misread.Select(r => r.Serial)])}" : "no",
    ];

    private static void Entries(Review review, Display display)
    {
        Head(review.Entries.Count == 0 ? "No entries" : "Entries");
        if (review.LeftOut > 0)
        {
            Plain.Line(
                $"{review.LeftOut} more entries of these minutes are not shown, only those nearest to the instant; ask for fewer minutes, or for one fixture");
        }

        if (review.Entries.Count > 0)
        {
            var notes = NotePlaces.Of(review);
            Plain.Table(
                EntryView.Columns(display),
                notes[0].Select(Note).Concat(review.Entries.SelectMany(e => notes[e.Serial].Select(Note).Prepend(EntryView.ToRow(e.Row, display)))));
        }
    }

    /// <summary>A person's words stand behind the entry that they are about, whenever they were written.</summary>
    private static IReadOnlyList<string> Note(NoteBody note) => ["", "", "", "", "", "", "", $"noted by {note.By}: \"{note.Text}\" (entry {note.Serial})"];

    private static void Trust(Evidence evidence)
    {
        Head("How far this record can be trusted");
        Plain.Line(evidence.ChainFault is { } fault ? $"NOT INTACT: {fault}" : "the hashes of the entries shown form an unbroken chain");
        Plain.Line(evidence.Whole switch
        {
            null => "the rest of the ledger was not checked; --verify checks all of it",
            { ExitCode: 0 } v => $"the whole ledger was verified: {v.Entries} entries, head {v.HeadSerial} {v.HeadHash}",
            { ExitCode: 1 } v => $"THE LEDGER IS NOT INTACT: {v.Faults.Count} fault{(v.Faults.Count == 1 ? "" : "s")}, the first at entry "
                + $"{v.Faults[0].Serial}: {v.Faults[0].Text}",
            { } v => $"the ledger could not be checked: {v.Unreadable}",
        });
        foreach (var finding in evidence.Whole?.Findings ?? [])
        {
            Plain.Line($"   {finding}");
        }

        if (evidence.Plant is { } plant)
        {
            Plain.Line($"NOT WHAT THE PLANT STORE HAS: {plant}");
        }

        Plain.Line(Replayed(evidence.Replay));
    }

    private static string Replayed(ReplayResult r)
    {
        var what = $"{r.Answers} answer{(r.Answers == 1 ? "" : "s")}, {r.Refusals} refusal{(r.Refusals == 1 ? "" : "s")} and {r.Others} other "
            + $"entr{(r.Others == 1 ? "y" : "ies")} were computed again from their recorded inputs";
        var given = r.Given == 0 ? "" : $"; {r.Given} of them rest on facts that no ledger holds, and these were taken as recorded";
        return r.Unreadable is { } unreadable ? $"{what}; the others could not be: {unreadable}"
            : r.Differences.Count == 0 ? $"{what}, and all came out the same{given}"
            : $"{what}, and {r.Differences.Count + r.MoreDifferences} DID NOT COME OUT THE SAME: {Serials([.. r.Differences.Select(d => d.Serial)])}; "
            + $"stockseat ledger replay SERIAL shows each step{given}";
    }

    private static void Head(string text)
    {
        Plain.Line("");
        Plain.Line(text);
    }

    private static string Serials(IReadOnlyList<long> serials) => serials.Count <= 12
        ? string.Join(", ", serials.Select(Whole)) : $"{string.Join(", ", serials.Take(10).Select(Whole))} and {serials.Count - 10} more";

    /// <summary>The instant in UTC, as the ledger and machines have it.</summary>
    private static string Utc(Display display, DateTimeOffset at) =>
        display.Times.IsUtc ? "" : $" ({at.UtcDateTime.ToString("HH:mm:ss", CultureInfo.InvariantCulture)} UTC)";

    private static string Shift(double[] metres, LengthUnit unit) => string.Join(" ", metres.Select(m => unit.Fixed(m)));

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
