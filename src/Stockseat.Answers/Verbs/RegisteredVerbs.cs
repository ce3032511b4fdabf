using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Done;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Still;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Snapshots;

namespace Stockseat.Answers.Verbs;

/// <summary>The verbs and the kinds of entries that this version knows. To add one, add a folder for it and a line here.</summary>
public static class RegisteredVerbs
{
    /// <summary>The table.</summary>
    public static VerbTable Table { get; } = new(
        [
            new LocateVerb(),
            new TrialVerb(),
            new NextVerb(),
            new GridVerb(),
            new LoadedVerb(),
            new DroppedVerb(),
            new MeasuredVerb(),
            new EmptiedVerb(),
            new ConfirmVerb(),
            new DoneVerb(),
            new StillVerb(),
            new AdoptVerb(),
            new HoldVerb(),
            new ReleaseVerb(),
            new RecheckVerb(),
            new DescribeLotVerb(),
            new RollVerb(),
            new NoteVerb(),
        ],
        [
            new ServiceStartedKind(),
            new ServiceStoppedKind(),
            new UncleanStopKind(),
            new ClockStepKind(),
            new SealKind(),
            new SnapshotKind(),
            new RevisionRejectedKind(),
        ]);
}
