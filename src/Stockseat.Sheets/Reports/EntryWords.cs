using System.Globalization;
using Stockseat.Answers.Records;
using Stockseat.Audit.Reviewing;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Sheets.Reports;

/// <summary>What an entry says, in short words.</summary>
internal static class EntryWords
{
    /// <summary>The kind, for people.</summary>
    public static string Kind(ReviewEntry entry) => entry.Row.Kind.Replace('-', ' ');

    /// <summary>What an entry says.</summary>
    public static string Of(ReviewEntry entry) => entry.Body switch
    {
        AnswerBody b => $"{Ask(b.Purpose, b.Nest)} at {Wording.Length(b.Diameter)} ({From(b)}): {Shift(b)}{(b.First ? "; first" : "")}",
        RefusalBody b => $"{b.Asked} refused, {b.Reason}: {b.Text}{(b.Confirms is { } of ? $" (of answer {ReportNumbers.Whole(of)})" : "")}",
        MeasurementBody b => Measured(b),
        EmptiedBody => "the nests were emptied or refilled: the measurement before is void",
        LotDescribedBody b => $"lot {b.Lot} was described{(b.LotTerms.Nominal is { } nominal ? $", nominal {Wording.Length(nominal)}" : "")}",
        ConfirmationBody b => $"confirms answer {ReportNumbers.Whole(b.Confirms)}, {b.Purpose}{ReadBack(b.ReadBack)}",
        RevisionAdoptedBody b => $"revision {ReportNumbers.Whole(b.Revision ?? 0)} in force{(b.Automatic ? ", by the service itself" : "")}; {b.By}: {b.Why}",
        RevisionRejectedBody b => $"the file of revision {(b.Revision is { } number ? ReportNumbers.Whole(number) : "?")} is faulty or changed: {(b.Faults.Count > 0 ? b.Faults[0] : "no fault is named")}{(b.Faults.Count > 1 ? $" ({ReportNumbers.Count(b.Faults.Count - 1, "more fault")})" : "")}",
        HeldBody b => $"held by {b.By}: {b.Why}",
        ReleasedBody b => $"{b.By} released the hold of {b.Of}: {b.Why}; {(b.Left == 0 ? "none is left" : $"{ReportNumbers.Whole(b.Left)} left")}",
        RecheckBody b => Recheck(b),
        _ => OfService(entry),
    };

    /// <summary>How a recheck came out.</summary>
    public static string Recheck(RecheckBody b) =>
        $"master of {Wording.Length(b.Master)} at nest {Nest(b.Nest)} by {b.By}: found {Wording.Length(b.Length)} from where it was predicted"
        + (b.Limit is { } limit ? $", limit {Wording.Length(limit)}" : "")
        + b.Passed switch { true => ": within", false => ": MISSED", _ => ": nothing to judge it by" } + (b.Refuses ? "; asks are refused until another revision is adopted" : "");

    /// <summary>A measurement, with where it comes from.</summary>
    public static string Measured(MeasurementBody b) =>
        $"{Wording.Length(b.Diameter)}, {ReportNumbers.Count(b.Readings.Count, "reading")}{(b.Spread is { } spread ? $" within {Wording.Length(spread)}" : "")}"
        + (b.Gauge is { } gauge ? $", gauge {gauge}" : "") + (b.Lot is { } lot ? $", lot {lot}" : "") + $", good for {ReportClock.Duration(TimeSpan.FromSeconds(Math.Min(b.FreshFor, 1e9)))}";

    /// <summary>The shift in base, by the names that it has in lines.</summary>
    public static string Shift(AnswerBody b) => $"shift bx {ReportNumbers.Signed(b.ShiftBase[0])}, by {ReportNumbers.Signed(b.ShiftBase[1])}, bz {ReportNumbers.Signed(b.ShiftBase[2])} mm";

    /// <summary>Who asked: the client, else its address, with the tag that was sent.</summary>
    public static string Who(string? client, string? address, string? tag) => string.Join(", ", new[] { client ?? address, tag is null ? null : $"tag {tag}" }.OfType<string>());

    /// <summary>"pick at nest 0,0".</summary>
    public static string Ask(string purpose, int[] nest) => $"{purpose} at nest {Nest(nest)}";

    /// <summary>A nest's column and row.</summary>
    public static string Nest(int[] nest) => string.Join(',', nest.Select(n => n.ToString(CultureInfo.InvariantCulture)));

    /// <summary>How far and which way the clock was set.</summary>
    public static string ClockSet(ClockStepBody b) => $"clock set {(b.Seconds < 0 ? "back" : "forward")} by {(b.AtStart ? "at least " : "")}{ReportClock.Duration(TimeSpan.FromSeconds(Math.Clamp(b.Seconds, -1e11, 1e11)))}";

    private static string From(AnswerBody b) => b.Measurement is { } serial ? $"measured {ReportNumbers.Whole(serial)}{(b.Age is { } age ? $", {ReportClock.Duration(TimeSpan.FromSeconds(Math.Round(Math.Min(age, 1e9))))} old" : "")}" : "stated by the client";

    private static string OfService(ReviewEntry entry) => entry.Body switch
    {
        ServiceStartedBody b => $"the service started: version {b.Program} on {b.Host}, process {ReportNumbers.Whole(b.Process)}",
        ServiceStoppedBody => "the service stopped in order",
        UncleanStopBody b => $"the service before ended out of order, after entry {ReportNumbers.Whole(b.Last)}",
        ClockStepBody b => ClockSet(b),
        SealBody b => $"signs all up to entry {ReportNumbers.Whole(b.Sealed)}, key {ReportNumbers.Short(b.Key)}",
        SnapshotBody b => $"writes what holds after entry {ReportNumbers.Whole(b.Serial - 1)}: "
            + $"carries {ReportNumbers.Count(b.Carried.Count, "older entry", "older entries")}",
        RolledOverBody { IsEnd: true } b => $"this ledger ends; {b.Next} goes on ({b.By}: {b.Why})",
        RolledOverBody b => $"this ledger goes on after {b.Follows?.Ledger ?? "another one"}",
        _ => $"NOT READABLE by this version of the program: {ReportNumbers.Count(System.Text.Encoding.UTF8.GetByteCount(entry.Row.Body), "byte")} of kind {entry.Row.Kind}",
    };

    private static string ReadBack(IReadOnlyDictionary<string, string>? numbers) =>
        numbers is { Count: > 0 } ? $"; read back {string.Join(", ", numbers.Select(p => $"{p.Key} {p.Value}"))}" : ", nothing read back";
}
