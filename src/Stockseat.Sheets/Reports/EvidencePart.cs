using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>How far the record can be trusted.</summary>
internal static class EvidencePart
{
    /// <summary>The most faults, and the most differences, that are listed; the commands list all.</summary>
    private const int Most = 10;

    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "evidence", "How far this record can be trusted", () =>
    {
        var (review, evidence) = (context.Review, context.Review.Evidence);
        html.In("dl", "", () =>
        {
            ReportParts.Fact(html, "entries shown", evidence.ChainFault is { } fault
                ? $"NOT AS THEY WERE WRITTEN: {fault}"
                : review.Entries.Count == 0 ? "none, so nothing was checked"
                : "the hash of each fits the entry before it: they are as they were written, unless somebody forged all entries from some point on");
            if (evidence.Plant is { } plant)
            {
                ReportParts.Fact(html, "plant store", $"NOT WHAT THE PLANT STORE HAS: {plant}");
            }

            Whole(html, evidence);
            ReportParts.Fact(html, "computed again", Replayed(evidence.Replay));
            foreach (var difference in evidence.Replay.Differences.Take(Most))
            {
                ReportParts.Fact(html, "not the same", ("entry ", null), context.Entry(difference.Serial), ($": {difference.Text}", null));
            }

            if (Math.Max(0, evidence.Replay.Differences.Count - Most) + evidence.Replay.MoreDifferences is > 0 and var more)
            {
                ReportParts.Fact(html, "not the same", $"{PrintedNumbers.Whole(more)} more: stockseat ledger replay lists them");
            }

            ReportParts.Fact(html, "ledger", review.Ledger ?? "its first entry has no id");
            ReportParts.Fact(html, "head", $"entry {PrintedNumbers.Whole(review.HeadSerial)} when the report was made, with the hash");
            html.Text("dt", "its hash");
            html.Text("dd", review.HeadHash, "hash");
        });
        html.Text(
            "p", "Keep this report with a copy of the ledger (stockseat ledger copy) and an anchor from outside the machine: the report alone proves nothing.");
    });

    private static void Whole(HtmlWriter html, Evidence evidence)
    {
        if (evidence.Whole is not { } whole)
        {
            ReportParts.Fact(
                html, "whole ledger", "NOT VERIFIED for this report. To do so: stockseat ledger verify --data DIR --against ANCHOR --key PUB.pem, with an "
                    + "anchor and a key that were kept outside the machine");
            ReportParts.Fact(html, "seals, anchors", "not checked; the same command checks them");
            return;
        }

        ReportParts.Fact(html, "whole ledger", whole switch
        {
            { Faults.Count: > 0 } =>
                $"NOT INTACT: {PrintedNumbers.Count(whole.Faults.Count, "fault")} in {PrintedNumbers.Count(whole.Entries, "entry", "entries")}",
            { Unreadable: { } why } => $"COULD NOT BE CHECKED: {why}",
            _ => $"intact: {PrintedNumbers.Count(whole.Entries, "entry", "entries")} up to {PrintedNumbers.Whole(whole.HeadSerial)}, no fault",
        });
        foreach (var fault in whole.Faults.Take(Most))
        {
            ReportParts.Fact(html, "fault", $"{(fault.Serial > 0 ? $"entry {PrintedNumbers.Whole(fault.Serial)}: " : "")}{fault.Text}");
        }

        if (whole.Faults.Count > Most)
        {
            ReportParts.Fact(html, "fault", $"{PrintedNumbers.Whole(whole.Faults.Count - Most)} more: stockseat ledger verify lists them");
        }

        ReportParts.Fact(html, "seals", whole.Seals is { } seals
            ? $"{PrintedNumbers.Count(seals.Count, "good seal")}, up to entry {PrintedNumbers.Whole(seals.Sealed)}, key {seals.Key}"
            : "no good seal: somebody who can write the file can forge all of it");
        foreach (var finding in whole.Findings)
        {
            ReportParts.Fact(html, "note", finding);
        }
    }

    private static string Replayed(ReplayResult replay)
    {
        var count = replay.Answers + replay.Refusals + replay.Others;
        var what = $"{PrintedNumbers.Count(replay.Answers, "answer")}, {PrintedNumbers.Count(replay.Refusals, "refusal")} and "
            + $"{PrintedNumbers.Count(replay.Others, "other entry", "other entries")} (entries {PrintedNumbers.Whole(replay.First)} to "
            + $"{PrintedNumbers.Whole(replay.Last)})";
        var rest = (replay.Within > 0 ? $"; {PrintedNumbers.Whole(replay.Within)} by another version of the program, the same within the tolerance" : "")
            + (replay.Given > 0 ? $"; {PrintedNumbers.Whole(replay.Given)} rest on facts that no ledger holds, and were taken as recorded" : "");
        return replay switch
        {
            { Unreadable: { } why } => $"NOT ALL COULD BE COMPUTED AGAIN: {why}",
            { Differences.Count: > 0 } =>
                $"NOT ALL CAME OUT THE SAME: {PrintedNumbers.Whole(replay.Differences.Count + replay.MoreDifferences)} of {what}{rest}",
            _ when count == 0 => "no entry of these minutes is computed from others",
            _ => $"{what}: all came out as recorded{rest}",
        };
    }
}
