using Stockseat.Answers.Adopt;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Snapshots;
using static Stockseat.Audit.Explaining.InputSection;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>What entries say in which nothing is computed.</summary>
internal static class OtherWorking
{
    public const string Title = "What the entry says";

    /// <summary>The section of an entry.</summary>
    public static WorkingSection Of(EntryBody body)
    {
        var steps = new Steps(Title);
        Entry(steps, body);
        Tell(steps, body);
        return steps.Section;
    }

    /// <summary>The sections of the refusal of any other verb.</summary>
    public static IEnumerable<WorkingSection> Of(RefusalBody body)
    {
        var steps = new Steps(Title);
        Entry(steps, body);
        steps.Say($"By {Said(body.By)}, because: {Said(body.Why)}; note: {Said(body.Note)}; whose hold: {Said(body.Of)}.");
        if (body.Adopts is { } adopts)
        {
            steps.Given("adopts", "the revision that should be adopted", One, adopts);
        }

        if (body.AdoptsDigest is { } digest)
        {
            steps.Say($"Its file had to have a digest that begins with {Said(digest)}.");
        }

        if (body.Diameter is { } diameter)
        {
            steps.Given("D", "the diameter", Metre, diameter);
        }

        if (Three(body.Found) is { } found)
        {
            steps.Given("f", "where a master was found, in base (x, y, z)", Metre, found);
        }

        if (body.Lot is not null)
        {
            Lot(steps, body.Lot, body.LotTerms);
        }

        yield return steps.Section;
        yield return RefusedSection.Begin(body).Section;
    }

    private static void Tell(Steps steps, EntryBody body)
    {
        switch (body)
        {
            case ServiceStartedBody b:
                steps.Say($"The service began: program {Said(b.Program)}, host {Said(b.Host)}, process {Whole(b.Process)}, ledger {Said(b.Ledger)}.");
                break;
            case UncleanStopBody b:
                steps.Given("last", "the last entry of the service before this one, which did not stop cleanly", One, b.Last);
                break;
            case RevisionAdoptedBody b:
                steps.Say(
                    $"Adopted{(b.Automatic ? " automatically, as the configuration says" : "")} by {Said(b.By)}, because: {Said(b.Why)}. The entry holds the "
                        + "revision's whole content.");
                break;
            case RevisionRejectedBody b:
                steps.Say($"Rejected: the file with hash {Said(b.File)}: {Said(b.Faults is null ? null : string.Join("; ", b.Faults))}.");
                break;
            case EmptiedBody: steps.Say("The nests were emptied or refilled: the measurement before this is void."); break;
            case DoneBody b:
                steps.Say(
                    $"The move of answer {Whole(b.Answer)}, a {Said(b.Purpose)}, was carried out and went well{(b.By is null ? "" : $", says {Said(b.By)}")}.");
                if (b.Confirmation is { } confirmation)
                {
                    steps.Given("confirmation", "the entry that read its numbers back", One, confirmation);
                }

                if (Three(b.ShiftBase) is { } shift)
                {
                    steps.Given("b", "the shift in base that was carried out (x, y, z)", Metre, shift);
                }

                break;
            case NoteBody b: steps.Say($"Noted by {Said(b.By)}: {Said(b.Text)}."); break;
            case HeldBody b: steps.Say($"Held by {Said(b.By)}, because: {Said(b.Why)}."); break;
            case ReleasedBody b:
                steps.Say($"The hold of {Said(b.Of)} was released by {Said(b.By)}, because: {Said(b.Why)}.");
                steps.Given("left", "how many holds are left", One, b.Left);
                break;
            case LotDescribedBody b: Lot(steps, b.Lot ?? "not recorded", b.LotTerms); break;
            case ClockStepBody b:
                steps.Given(
                    "moved", $"how far the clock was moved, below 0 means back{(b.AtStart ? "; found at a start" : "")}; {Said(b.Before)} was expected", Second,
                    b.Seconds);
                break;
            case SealBody b:
                steps.Say(
                    $"A signature with key {Said(b.Key)} over all entries up to {Whole(b.Sealed)}, whose hash is {Said(b.Head)}, of ledger {Said(b.Ledger)}.");
                break;
            case RolledOverBody { IsEnd: true } b:
                steps.Say($"The ledger ends here; ledger {Said(b.Next)} continues it. By {Said(b.By)}, because: {Said(b.Why)}.");
                break;
            case SnapshotBody b:
                steps.Say(
                    $"A snapshot of what holds after entry {Whole(b.Serial - 1)}, so that a start need not read the entries before; it follows from them, "
                    + "byte for byte.");
                steps.Given("carried", "how many older entries it carries", One, b.Carried.Count);
                break;
            case RolledOverBody b:
                steps.Say($"Ledger {Said(b.Ledger)} begins here, after ledger {Said(b.Follows?.Ledger)}, and carries what holds.");
                steps.Given("carried", "how many older entries it carries", One, b.Carried?.Count ?? 0);
                break;
            default: steps.Say($"An entry of kind {body.Kind}."); break;
        }
    }
}
