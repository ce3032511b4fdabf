using Stockseat.Answers.Events;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;
using Stockseat.Sheets.Timelines;
using Part = Stockseat.Sheets.Timelines.TimelinePart;

namespace Stockseat.Sheets.Reports;

/// <summary>The timeline of the entries.</summary>
internal static class TimelinePart
{
    /// <summary>The labels of findings come before all others, the most important finding first.</summary>
    private const int FindingWeight = 1_000_000;

    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "timeline", "Timeline", () =>
        html.In("figure", "", () =>
        {
            var timeline = Of(context);
            html.Raw(TimelineDrawing.Draw(timeline, new("picture", "Timeline of the entries", Told(context)), ReportStyle.WidthOf(context.Display.Paper)));
            html.Text(
                "figcaption", "Time runs to the right; the thick line is the instant. Each row has marks of one shape, with a serial where there is "
                    + "room. Minutes without entries at the ends are left out."
                + (
                    context.Review.Findings.Count > 0
                        ? " A ring around a mark, and a number in brackets before its label: the finding with that number is about it." : "")
                + (
                    timeline.Parts.Count > 1
                        ? " A double zigzag line: the clock was set there; times on its two sides can't be compared, and a time may occur twice." : ""));
        }));

    /// <summary>The data of the timeline.</summary>
    public static Timeline Of(ReportContext context)
    {
        var entries = context.Review.Entries;
        var rows = TimelineRows.Of(entries, out var rowOf);
        var (partOf, parts) = Parts(context.Review);
        var around = Around(context.Review);
        var marks = entries.Select((entry, i) =>
        {
            var kind = TimelineRows.KindOf(entry);
            var findings = context.FindingsOf(entry.Serial);
            var (word, brackets) = (
                $"{TimelineRows.WordOf(kind)} {PrintedNumbers.Whole(entry.Serial)}", findings.Count > 0 ? $"[{string.Join(',', findings)}]" : "");
            var (label, weight) = findings.Count > 0 ? ($"{brackets} {word}", Weight(context, entry.Serial, findings[0]))
                : around.Contains(entry.Serial) ? (word, 1) : ("", 0);
            return new TimelineMark(
                rowOf[kind], partOf[i], When(entries, i, context.Review.From), label, brackets, weight, findings.Count > 0, context.Review.IsAfter(entry));
        });
        return new() { Parts = parts, Rows = rows, Marks = [.. marks], Instant = context.Clock.Instant };
    }

    /// <summary>The most important finding first, and of that its first entry.</summary>
    private static int Weight(ReportContext context, long serial, int finding) =>
        FindingWeight - (finding * 1000) - context.Review.Findings[finding - 1].Serials.TakeWhile(s => s != serial).Count();

    /// <summary>The part in which each entry is, and the parts: a step of the clock begins a new one.</summary>
    private static (int[] Of, List<Part> Parts) Parts(Review review)
    {
        var of = new int[review.Entries.Count];
        List<(DateTimeOffset From, DateTimeOffset To, string Break)> found = [];
        var here = 0;
        for (var i = 0; i < of.Length; i++)
        {
            var (entry, at) = (review.Entries[i], When(review.Entries, i, review.From));
            if (found.Count == 0 || (entry.Body is ClockStepBody && i > 0))
            {
                found.Add((at, at, entry.Body is ClockStepBody step && i > 0 ? EntryText.ClockSet(step) : ""));
            }

            var (from, to, text) = found[^1];
            found[^1] = (at < from ? at : from, at > to ? at : to, text);
            of[i] = found.Count - 1;
            here = review.IsAfter(entry) ? here : of[i];
        }

        if (found.Count == 0)
        {
            return (of, [new(review.From, review.To, true, "")]);
        }

        // The part of the instant shows time without entries at its ends only up to a third of its length, so that entries close together stay readable.
        var (least, most) = (Earlier(found[here].From, review.At), Later(found[here].To, review.At));
        var margin = Math.Max(TimeSpan.TicksPerSecond, (most - least).Ticks / 3);
        found[here] = found[here] with
        {
            From = here == 0 ? Earlier(least, Later(review.From, least.AddTicks(-margin))) : least,
            To = here == found.Count - 1 ? Later(most, Earlier(review.To, most.AddTicks(margin))) : most,
        };
        return (of, [.. found.Select((p, i) => new Part(p.From, p.To, i == here, i == 0 ? "" : p.Break))]);
    }

    private static DateTimeOffset Earlier(DateTimeOffset one, DateTimeOffset other) => one < other ? one : other;

    private static DateTimeOffset Later(DateTimeOffset one, DateTimeOffset other) => one > other ? one : other;

    /// <summary>An entry's instant; that of the entry before it where its own can't be read.</summary>
    private static DateTimeOffset When(IReadOnlyList<ReviewEntry> entries, int index, DateTimeOffset from)
    {
        for (; index >= 0; index--)
        {
            if (ReportClock.Find(entries[index].Row.At) is { } at)
            {
                return at;
            }
        }

        return from;
    }

    /// <summary>The last entry of each lane before the instant, and the first one after it.</summary>
    private static HashSet<long> Around(Review review)
    {
        var (serials, after) = (new HashSet<long>(), new HashSet<int>());
        var last = new Dictionary<int, long>();
        foreach (var entry in review.Entries)
        {
            var lane = TimelineRows.LaneOf(TimelineRows.KindOf(entry));
            if (!review.IsAfter(entry))
            {
                last[lane] = entry.Serial;
            }
            else if (after.Add(lane))
            {
                serials.Add(entry.Serial);
            }
        }

        serials.UnionWith(last.Values);
        return serials;
    }

    private static string Told(ReportContext context)
    {
        var kinds = context.Review.Entries.GroupBy(e => e.Row.Kind.Replace('-', ' ')).Select(g => $"{PrintedNumbers.Whole(g.Count())} of kind {g.Key}")
            .ToList();
        return $"From {context.Clock.Time(context.Review.From)} to {context.Clock.Time(context.Review.To)}, the instant "
            + $"{context.Clock.Time(context.Review.At)} marked: {(kinds.Count == 0 ? "no entry" : string.Join(", ", kinds))}. The table of all entries "
            + "has each of them.";
    }
}
