using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Cli.Output.Reviews;

/// <summary>A review for people on a terminal.</summary>
internal static class ReviewText
{
    private static readonly string[] AnswerColumns =
        ["serial", "at (UTC)", "client", "fixture", "rev", "for", "nest", "diameter [mm]", "from", "bx by bz [mm]", "moved by [mm]", "first", "confirmed"];

    /// <summary>Prints it.</summary>
    public static void Print(Review review)
    {
        Plain.Line(
            $"The minutes around {Second(review.At)} UTC{Local(review.At)}, from {Second(review.From)} to {Second(review.To)}; ledger {review.Ledger}, head "
                + $"{review.HeadSerial}");
        if (review.Question is { Fixture: not null } or { Cell: not null })
        {
            string?[] only = [review.Question.Fixture is { } f ? $"fixture {f}" : null, review.Question.Cell is { } c ? $"cell {c}" : null];
            Plain.Line($"Only what concerns {string.Join(" and ", only.OfType<string>())}");
        }

        foreach (var sentence in review.Summary)
        {
            Plain.Line(sentence);
        }

        Findings(review);
        Stood(review);
        Answers(review);
        Entries(review);
        Trust(review.Evidence);
        Head("Cautions");
        Plain.Line("This review is not a release to restart. It shows what the ledger knows, not what is in the nests now, nor what the robot did.");
        foreach (var caution in Caution.Full("Stockseat"))
        {
            Plain.Line(caution);
        }
    }

    private static void Findings(Review review)
    {
        Head(review.Findings.Count == 0 ? "No findings" : "What to look at");
        for (var i = 0; i < review.Findings.Count; i++)
        {
            var f = review.Findings[i];
            Plain.Line(
                $"{i + 1}. {f.Rule.Name()}{(f.Serials.Count == 0 ? "" : $" (entr{(f.Serials.Count == 1 ? "y" : "ies")} {Serials(f.Serials)})")}: {f.What}");
            Plain.Line($"   why: {f.Why}");
            Plain.Line($"   next: {f.Next}");
        }
    }

    private static void Stood(Review review)
    {
        Head($"How things stood then{(review.Then == 0 ? ": nothing was recorded yet" : $", after entry {review.Then}")}");
        foreach (var f in review.Fixtures)
        {
            Plain.Line(
                f.Adopted is { } a ? $"{f.Fixture}: revision {a.Revision}, digest {a.Digest![..12]}, adopted {Second(EntryTime.Parse(a.At))} by {a.By} (entry "
                    + $"{a.Serial}): {a.Why}" : $"{f.Fixture}: no revision was in force");
            Plain.Line(
                f.Measurement is { } m ? $"   measured {Wording.FixedMillimetres(m.Diameter)} mm at "
                    + $"{Second(EntryTime.Parse(m.At))}{(m.Gauge is null ? "" : $" by {m.Gauge}")}{(m.Lot is null ? "" : $", lot {m.Lot}")} (entry {m.Serial})"
                    : $"   no measurement stood: {f.NoMeasurement}");
            foreach (var hold in f.Holds)
            {
                Plain.Line($"   held by {hold.By} since {Second(hold.At)} (entry {hold.Serial}): {hold.Why}");
            }

            if (f.Missed is { } miss)
            {
                Plain.Line($"   a recheck had missed by {Wording.FixedMillimetres(miss.Length)} mm (entry {miss.Serial})");
            }

            Plain.Line(
                f.LastAnswer is { } l ? $"   last answer {l.Serial} at {Second(EntryTime.Parse(l.At))}: {l.Purpose} at {Wording.FixedMillimetres(l.Diameter)} "
                    + $"mm, shift {Shift(l.ShiftBase)} mm" : "   no answer before then was found");
        }
    }

    private static void Answers(Review review)
    {
        if (review.Answers.Count > 0)
        {
            Head("Answers");
            Plain.Table(AnswerColumns, review.Answers.Select(Row));
        }
    }

    private static IReadOnlyList<string> Row(ServedAnswer a) =>
    [
        Whole(a.Answer.Serial), Time(a.Answer.At), a.Answer.Client ?? "", a.Answer.Fixture ?? "", Whole(a.Answer.Revision ?? 0), a.Answer.Purpose,
        $"{a.Answer.Nest[0]},{a.Answer.Nest[1]}",
        Wording.FixedMillimetres(a.Answer.Diameter), a.Answer.Measurement is { } m ? $"measurement {m}" : "stated", Shift(a.Answer.ShiftBase),
        a.ChangeMetres is { } c ? Wording.FixedMillimetres(c) : "",
        a.Answer.First ? "yes" : "no",
        a.ConfirmedBy is { } by ? Whole(by) : a.Misread.Count > 0 ? $"misread {Serials([.. a.Misread.Select(r => r.Serial)])}" : "no",
    ];

    private static void Entries(Review review)
    {
        Head(review.Entries.Count == 0 ? "No entries" : "Entries");
        if (review.LeftOut > 0)
        {
            Plain.Line(
                $"{review.LeftOut} more entries of these minutes are not shown, only those nearest to the instant; ask for fewer minutes, or for one fixture");
        }

        if (review.Entries.Count > 0)
        {
            Plain.Table(EntryView.Columns, review.Entries.Select(e => EntryView.ToRow(e.Row)));
        }
    }

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

    private static string Local(DateTimeOffset at) => TimeZoneInfo.Local.BaseUtcOffset == TimeSpan.Zero && !TimeZoneInfo.Local.SupportsDaylightSavingTime
        ? "" : $" ({TimeZoneInfo.ConvertTime(at, TimeZoneInfo.Local).ToString("HH:mm:ss zzz", CultureInfo.InvariantCulture)})";

    private static string Second(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Time(string at) => at[11..23];

    private static string Shift(double[] metres) => string.Join(" ", metres.Select(Wording.FixedMillimetres));

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
