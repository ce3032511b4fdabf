using System.Globalization;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Done;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Snapshots;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Entries;

/// <summary>What an entry says, in a few words, for reports and for the tables of the command line.</summary>
public static class EntryText
{
    /// <summary>What an entry says; null when this version does not know its kind. A refusal's text is shown as it was recorded.</summary>
    public static string? Of(EntryBody? body, LengthUnit unit) => body switch
    {
        ServedBody b =>
            $"{Before(b)}{Ask(b.Purpose, b.Nest)} at {unit.Text(b.Diameter)} ({From(b)}): {Shift(b, unit)}{(b.First ? "; first" : "")}",
        RefusalBody b => $"{b.Asked} refused, {b.Reason}: {b.Text}{(b.Confirms is { } of ? $" (of answer {PrintedNumbers.Whole(of)})" : "")}",
        MeasurementBody b => (b.Nest is { } nest ? $"nest {Nest(nest)}: " : "") + Measured(b, unit),
        LoadedBody b => Loaded(b),
        DroppedBody b =>
            $"answer {PrintedNumbers.Whole(b.Answer)} was not carried out, {Ask(b.Purpose, b.Nest)}; the nest is as it was{(b.By is null ? "" : $"; {b.By}")}",
        EmptiedBody => "the nests were emptied or refilled: the measurement before this is void",
        LotDescribedBody b => $"lot {b.Lot} was described{Lot(b.LotTerms, unit)}"
            + (b.Before is { } before ? $"; before this, by entry {PrintedNumbers.Whole(b.Replaces ?? 0)}{Lot(before, unit)}" : ""),
        ConfirmationBody b =>
            $"confirms answer {PrintedNumbers.Whole(b.Confirms)}, "
            + $"{b.Purpose}{(b.Numbers == ConfirmationBody.None ? "; no number was read back" : ReadBack(b.ReadBack))}",
        DoneBody b => $"answer {PrintedNumbers.Whole(b.Answer)} was carried out, {Ask(b.Purpose, b.Nest)}{(b.By is null ? "" : $"; {b.By}")}",
        NoteBody b =>
            $"note by {b.By}: {b.Text}{(b.Entry is { } of ? $" (about entry {PrintedNumbers.Whole(of)})" : b.Instant is { } at ? $" (about {at})" : "")}",
        RevisionAdoptedBody b => $"revision {PrintedNumbers.Whole(b.Revision ?? 0)} put into force{(b.Automatic ? " by the service itself" : "")}; {b.By}: "
            + $"{b.Why}",
        RevisionRejectedBody b => $"the file of revision {(b.Revision is { } number ? PrintedNumbers.Whole(number) : "?")} is faulty or changed: "
            + $"{(b.Faults.Count > 0 ? b.Faults[0] : "no fault is named")}"
            + $"{(b.Faults.Count > 1 ? $" ({PrintedNumbers.Count(b.Faults.Count - 1, "more fault")})" : "")}",
        HeldBody b => $"held by {b.By}: {b.Why}",
        ReleasedBody b => $"{b.By} released the hold of {b.Of}: {b.Why}; {(b.Left == 0 ? "none is left" : $"{PrintedNumbers.Whole(b.Left)} left")}",
        RecheckBody b => Recheck(b, unit),
        _ => OfService(body),
    };

    private static string Before(ServedBody b) => b is TrialBody ? "trial: "
        : b is GridBody grid ? $"all {PrintedNumbers.Whole(grid.Count)} nests: "
        : b.Load is { } load ? $"next of load {PrintedNumbers.Whole(load)} ({PrintedNumbers.Whole(b.Left ?? 0)} left): "
        : "";

    private static string Loaded(LoadedBody b) =>
        $"loaded{(b.Lot is null ? "" : $" with lot {b.Lot}")}: {PrintedNumbers.Count(b.Count, "nest", "nests")} of {PrintedNumbers.Whole(b.Columns * b.Rows)}"
        + (b.Replaces is { } before ? $"; load {PrintedNumbers.Whole(before)} before it had {PrintedNumbers.Whole(b.ReplacedLeft ?? 0)} left" : "")
        + (b.Unfinished is { } open ? $", and answer {PrintedNumbers.Whole(open)} was neither done nor dropped" : "");

    /// <summary>How a recheck came out.</summary>
    public static string Recheck(RecheckBody b, LengthUnit unit) =>
        $"master of {unit.Text(b.Master)} at nest {Nest(b.Nest)} by {b.By}: found {unit.Text(b.Length)} from where it was predicted"
        + (b.Limit is { } limit ? $", limit {unit.Text(limit)}" : "")
        + b.Passed switch { true => ": within", false => ": MISSED", _ => ": not judged, since no limit is known" }
        + (b.Refuses ? "; asks are refused until another revision is adopted" : "")
        + (b.Note is null ? "" : $"; {b.Note}");

    /// <summary>A measurement, with its source.</summary>
    public static string Measured(MeasurementBody b, LengthUnit unit) =>
        $"{unit.Text(b.Diameter)}, "
            + $"{PrintedNumbers.Count(b.Readings.Count, "reading")}{(b.Spread is { } spread ? $" within {unit.Text(spread)}" : "")}"
        + (b.Gauge is { } gauge ? $", gauge {gauge}" : "")
        + (b.Lot is { } lot ? $", lot {lot}" : "") + $", good for {PrintedNumbers.Duration(TimeSpan.FromSeconds(Math.Min(b.FreshFor, 1e9)))}";

    /// <summary>The shift in base, with the names that lines use.</summary>
    public static string Shift(ServedBody b, LengthUnit unit) =>
        $"shift bx {PrintedNumbers.Signed(b.ShiftBase[0], unit)}, by {PrintedNumbers.Signed(b.ShiftBase[1], unit)}, "
            + $"bz {PrintedNumbers.Signed(b.ShiftBase[2], unit)} {unit}";

    /// <summary>Who asked: the client, or its address when it has no name, with the tag that was sent.</summary>
    public static string Who(string? client, string? address, string? tag) =>
        string.Join(", ", new[] { client ?? address, tag is null ? null : $"tag {tag}" }.OfType<string>());

    /// <summary>"pick at nest 0,0".</summary>
    public static string Ask(string purpose, int[] nest) => $"{purpose} at nest {Nest(nest)}";

    /// <summary>A nest's column and row.</summary>
    public static string Nest(int[] nest) => string.Join(',', nest.Select(n => n.ToString(CultureInfo.InvariantCulture)));

    /// <summary>How far and which way the clock was set.</summary>
    public static string ClockSet(ClockStepBody b) => $"clock set {(b.Seconds < 0 ? "back" : "forward")} by "
        + $"{(b.AtStart ? "at least " : "")}{PrintedNumbers.Duration(TimeSpan.FromSeconds(Math.Clamp(b.Seconds, -1e11, 1e11)))}";

    private static string Lot(LotTerms terms, LengthUnit unit) =>
        terms is not { Least: { } least, Greatest: { } greatest } ? ": only a name"
        : $"{(terms.Nominal is { } nominal ? $", nominal {unit.Text(nominal)}" : "")}, {unit.Text(least)} to {unit.Text(greatest)}"
            + (terms.Tolerance is { } tolerance ? $" ({tolerance})" : "");

    private static string From(ServedBody b) => b.Measurement is { } serial ? $"measured {PrintedNumbers.Whole(serial)}"
        + $"{(b.Age is { } age ? $", {PrintedNumbers.Duration(TimeSpan.FromSeconds(Math.Round(Math.Min(age, 1e9))))} old" : "")}" : "stated by the client";

    private static string? OfService(EntryBody? body) => body switch
    {
        ServiceStartedBody b => $"the service started: version {b.Program} on {b.Host}, process "
            + $"{PrintedNumbers.Whole(b.Process)}{(b.Ledger is null ? "" : $", ledger {b.Ledger}")}",
        ServiceStoppedBody => "the service stopped cleanly",
        UncleanStopBody b => $"the service before this one ended without a clean stop, after entry {PrintedNumbers.Whole(b.Last)}",
        ClockStepBody b => ClockSet(b),
        SealBody b =>
            $"signs all entries up to {PrintedNumbers.Whole(b.Sealed)}, key "
                + $"{PrintedNumbers.Short(b.Key)}{(b.PublicKey is null ? "" : ", with the public key")}",
        SnapshotBody b =>
            $"snapshot of what holds after entry {PrintedNumbers.Whole(b.Serial - 1)}; it carries "
            + $"{PrintedNumbers.Count(b.Carried.Count, "older entry", "older entries")}",
        RolledOverBody { IsEnd: true } b => $"this ledger ends; ledger {b.Next} continues it ({b.By}: {b.Why})",
        RolledOverBody { Follows: { } before } b =>
            $"ledger {b.Ledger} continues ledger {before.Ledger}, which ended with entry {PrintedNumbers.Whole(before.Last)}; "
            + $"{PrintedNumbers.Count(b.Carried?.Count ?? 0, "entry is", "entries are")} carried over",
        RolledOverBody => "this ledger continues another one",
        _ => null,
    };

    private static string ReadBack(IReadOnlyDictionary<string, string>? numbers) =>
        numbers is { Count: > 0 } ? $"; read back {string.Join(", ", numbers.Select(p => $"{p.Key} {p.Value}"))}" : ", nothing read back";
}
