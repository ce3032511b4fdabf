using System.Collections.Immutable;
using System.Text;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Deciding;

/// <summary>
/// What holds for every fixture after some entry of the ledger. Immutable: a decision reads one, an entry makes the next.
/// A start, a recovery and a replay make it by applying entries in their order.
/// </summary>
public sealed class Situation
{
    private readonly ImmutableDictionary<string, FixtureState> _fixtures;

    private Situation(ImmutableDictionary<string, FixtureState> fixtures, ImmutableDictionary<string, DescribedLot> lots, StepBack? stepBack, long begins) =>
        (_fixtures, Lots, StepBack, Begins) = (fixtures, lots, stepBack, begins);

    /// <summary>Nothing is known.</summary>
    public static Situation Empty { get; } = new(
        ImmutableDictionary.Create<string, FixtureState>(StringComparer.Ordinal), ImmutableDictionary.Create<string, DescribedLot>(StringComparer.Ordinal), null, begins: 1);

    /// <summary>The lots that were described, by name.</summary>
    public ImmutableDictionary<string, DescribedLot> Lots { get; }

    /// <summary>All fixtures, by name.</summary>
    public IEnumerable<FixtureState> Fixtures => _fixtures.Values.OrderBy(f => f.Fixture, StringComparer.Ordinal);

    /// <summary>The newest step back of the clock; null when it never was set back.</summary>
    public StepBack? StepBack { get; }

    /// <summary>The first entry of this ledger; what is before it is in ledgers that were closed.</summary>
    public long Begins { get; }

    /// <summary>Whether a measurement is from before that step, so that nobody knows its age.</summary>
    public bool Doubts(StandingMeasurement measurement) => measurement.Serial < StepBack?.Serial;

    /// <summary>A fixture that the ledger or a folder knows; null when neither does.</summary>
    public FixtureState? Find(string fixture) => _fixtures.GetValueOrDefault(fixture);

    /// <summary>The same with the folders as they were just read.</summary>
    public Situation WithFolders(IReadOnlyList<FixtureFolder> folders)
    {
        var read = folders.ToDictionary(f => f.Fixture, StringComparer.Ordinal);
        return With([.. _fixtures.Keys.Concat(read.Keys).Distinct(StringComparer.Ordinal).Select(name => (name, read.GetValueOrDefault(name)))]);
    }

    /// <summary>The same with one folder as it was just read.</summary>
    public Situation WithFolder(FixtureFolder folder) => With([(folder.Fixture, folder)]);

    /// <summary>The same with these changes, all at once; those of a folder that was read anew meanwhile are passed over.</summary>
    public Situation WithChanges(IEnumerable<FolderChange> changes) =>
        With([.. changes.Where(c => ReferenceEquals(Find(c.Fixture)?.Folder, c.Was)).Select(c => (c.Fixture, c.Is))]);

    /// <summary>What is known of a lot: what the configuration says comes first.</summary>
    /// <param name="lot">Its name; null: none is meant.</param>
    /// <param name="configured">What the configuration says.</param>
    internal LotTerms? LotTerms(string? lot, LotTerms? configured) => lot is null ? null : configured ?? Lots.GetValueOrDefault(lot)?.Terms;

    /// <summary>What holds after an entry.</summary>
    /// <exception cref="InvalidDataException">It adopts a revision whose content does not read back to its digest.</exception>
    public Situation Apply(EntryBody body) => Apply(body, Read);

    /// <summary>The same for a replay, which a revision that can't be read does not end: then none is in force.</summary>
    /// <param name="body">The entry.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when it does not read back to its digest.</param>
    public Situation Apply(EntryBody body, Func<RevisionAdoptedBody, Revision?> read)
    {
        if (body is ClockStepBody step)
        {
            return StepBack.Of(step) is { } back ? new(_fixtures, Lots, back, Begins) : this;
        }

        if (body is LotDescribedBody lot)
        {
            return new(_fixtures, Lots.SetItem(lot.Lot, new(lot.LotTerms, lot.Serial)), StepBack, Begins);
        }

        if (body is RolledOverBody rolled)
        {
            return rolled.IsEnd ? this : Of(rolled.ReadCarried(), rolled.Serial, read);
        }

        if (body.Fixture is not { } name || body is AnswerBody)
        {
            return this;
        }

        var state = Find(name);
        // A measurement, refused or not, or a hold may come before the first adoption; another refusal may name a fixture that never was.
        if (state is null && body is not (RevisionAdoptedBody or RevisionRejectedBody or MeasurementBody or EmptiedBody or HeldBody or ReleasedBody) && !Voids(body))
        {
            return this;
        }

        state ??= new(name);
        var next = body switch
        {
            RevisionAdoptedBody b => Adopt(state, b, read(b)),
            RevisionRejectedBody b => state with { Rejected = b.File },
            MeasurementBody b => state with { Measurement = StandingMeasurement.Of(b) },
            EmptiedBody b => state with { Measurement = null, NoMeasurement = $"the nests were emptied or refilled (entry {b.Serial})", Cleared = b.Serial },
            RefusalBody b when Voids(b) =>
                state with { Measurement = null, NoMeasurement = $"the last measurement was refused (entry {b.Serial}, {b.Reason})" },
            ConfirmationBody b => Confirm(state, b),
            RecheckBody b => Recheck(state, b),
            HeldBody b => Hold(state, b),
            ReleasedBody b => state with { Holds = state.Holds.Remove(b.Of) },
            _ => state,
        };
        return ReferenceEquals(next, state) ? this : With(next);
    }

    /// <summary>What entries say that are carried, each applied as if it stood here.</summary>
    /// <param name="carried">The entries, in their order.</param>
    /// <param name="begins">The first entry of the ledger.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when it does not read back to its digest.</param>
    public static Situation Of(IEnumerable<EntryBody> carried, long begins, Func<RevisionAdoptedBody, Revision?>? read = null)
    {
        var held = carried.Aggregate(Empty, (situation, body) => situation.Apply(body, read ?? Read));
        return new(held._fixtures, held.Lots, held.StepBack, begins);
    }

    /// <summary>
    /// Whether an entry voids the measurement though it is a refusal: an old diameter must not stand in for one that was just refused. Who may not push
    /// can't void
    /// it, an unknown fixture has none, and readings that came before those of the measurement say nothing against it.
    /// </summary>
    /// <param name="body">The entry.</param>
    public static bool Voids(EntryBody body) =>
        body is RefusalBody { Asked: "measured", Number: not ((int)Reason.NotPermitted or (int)Reason.FixtureUnknown) }
            and not { Number: (int)Reason.MeasurementStale, Measurement: not null };

    private static Revision Read(RevisionAdoptedBody body)
    {
        var reading = RevisionReader.FromContent(Encoding.UTF8.GetBytes(body.Content.GetRawText()), $"entry {body.Serial}");
        if (reading.Revision is not { } revision || revision.Digest != body.Digest)
        {
            throw new InvalidDataException(
                $"entry {body.Serial} holds revision {body.Revision} of {body.Fixture}, which does not read back to its digest: {string.Join("; ", reading.Faults)}");
        }

        return revision;
    }

    private static FixtureState Adopt(FixtureState state, RevisionAdoptedBody body, Revision? revision)
    {
        var number = revision?.Number ?? body.Revision ?? 0;
        revision?.TakeEnvelopes(state.Folder?.Find(number)?.Reading.Revision);
        return state with
        {
            InForce = revision,
            Unread = revision is null ? body.Serial : null,
            AdoptedBy = body.Serial,
            Adopted = state.Adopted.SetItem(number, body.Digest ?? ""),
            Adoptions = state.Adoptions.SetItem(number, body.Serial),
            ConfirmedPick = null,
            ConfirmedPlace = null,
            Missed = number == state.InForce?.Number ? state.Missed : null, // adopted again, it is as wrong as before
            Cleared = body.Serial,
        };
    }

    private static FixtureState Recheck(FixtureState state, RecheckBody body)
    {
        var counts = body.Passed == false && body.Revision == state.InForce?.Number && (body.Refuses || state.Missed is not { Refuses: true });
        return counts ? state with { Missed = body } : state;
    }

    private static FixtureState Confirm(FixtureState state, ConfirmationBody body)
    {
        if (body.Confirms <= state.AdoptedBy)
        {
            return state;
        }

        var shift = new ConfirmedShift(body.Serial, body.ShiftBase[0], body.ShiftBase[1], body.ShiftBase[2]);
        return body.Purpose == "place" ? state with { ConfirmedPlace = shift } : state with { ConfirmedPick = shift };
    }

    /// <summary>The first hold of a name stands: said again, it holds since when it began.</summary>
    private static FixtureState Hold(FixtureState state, HeldBody body) => state with
    {
        Cleared = body.Serial,
        Holds = state.Holds.ContainsKey(body.By) ? state.Holds : state.Holds.Add(body.By, new(body.By, body.Why, body.Serial, EntryTime.Parse(body.At))),
    };

    /// <summary>A fixture that lost its folder and of which the ledger says nothing is no more: a restart would not know it either.</summary>
    private Situation With(IReadOnlyList<(string Fixture, FixtureFolder? Folder)> folders)
    {
        if (folders.Count == 0)
        {
            return this;
        }

        var next = _fixtures.ToBuilder();
        foreach (var (name, folder) in folders)
        {
            var state = (Find(name) ?? new FixtureState(name)) with { Folder = folder };
            if (folder is null && !state.Recorded)
            {
                next.Remove(name);
            }
            else
            {
                next[name] = state;
            }
        }

        return new(next.ToImmutable(), Lots, StepBack, Begins);
    }

    internal Situation With(FixtureState state) => new(_fixtures.SetItem(state.Fixture, state), Lots, StepBack, Begins);
}
