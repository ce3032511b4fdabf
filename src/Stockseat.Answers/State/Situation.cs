using System.Collections.Immutable;
using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.State;

/// <summary>
/// The state of everything after some entry of the ledger. Immutable: a decision reads a situation, and an entry makes the next one.
/// A start, a recovery and a replay make it by applying entries in their order.
/// </summary>
public sealed class Situation
{
    private readonly ImmutableDictionary<string, FixtureState> _fixtures;

    private Situation(ImmutableDictionary<string, FixtureState> fixtures, ImmutableDictionary<string, DescribedLot> lots, StepBack? stepBack, long begins) =>
        (_fixtures, Lots, StepBack, Begins) = (fixtures, lots, stepBack, begins);

    /// <summary>The situation in which nothing is known.</summary>
    public static Situation Empty { get; } = new(
        ImmutableDictionary.Create<string, FixtureState>(StringComparer.Ordinal), ImmutableDictionary.Create<string, DescribedLot>(StringComparer.Ordinal),
        null, begins: 1);

    /// <summary>The lots that were described, by name.</summary>
    public ImmutableDictionary<string, DescribedLot> Lots { get; }

    /// <summary>The states of all fixtures, by name.</summary>
    public IEnumerable<FixtureState> Fixtures => _fixtures.Values.OrderBy(f => f.Fixture, StringComparer.Ordinal);

    /// <summary>The newest step back of the clock; null when the clock was never set back.</summary>
    public StepBack? StepBack { get; }

    /// <summary>The first entry of this ledger; earlier entries are in closed ledgers.</summary>
    public long Begins { get; }

    /// <summary>Whether a measurement is from before that step, so that its age is not known.</summary>
    public bool Doubts(StandingMeasurement measurement) => measurement.Serial < StepBack?.Serial;

    /// <summary>The state of a fixture that the ledger or a folder knows; null when neither does.</summary>
    public FixtureState? Find(string fixture) => _fixtures.GetValueOrDefault(fixture);

    /// <summary>The answer with a serial, when its move is the unfinished one of a load; null otherwise.</summary>
    public EntryBody? Unfinished(long serial) =>
        _fixtures.Values.Select(f => f.Load?.Open).FirstOrDefault(o => o?.Answer == serial)?.Body;

    /// <summary>This situation with the folders as they were just read.</summary>
    public Situation WithFolders(IReadOnlyList<FixtureFolder> folders)
    {
        var read = folders.ToDictionary(f => f.Fixture, StringComparer.Ordinal);
        return With([.. _fixtures.Keys.Concat(read.Keys).Distinct(StringComparer.Ordinal).Select(name => (name, read.GetValueOrDefault(name)))]);
    }

    /// <summary>This situation with one folder as it was just read.</summary>
    public Situation WithFolder(FixtureFolder folder) => With([(folder.Fixture, folder)]);

    /// <summary>This situation with all these changes at once; a change is skipped when its folder was read again meanwhile.</summary>
    public Situation WithChanges(IEnumerable<FolderChange> changes) =>
        With([.. changes.Where(c => ReferenceEquals(Find(c.Fixture)?.Folder, c.Was)).Select(c => (c.Fixture, c.Is))]);

    /// <summary>What is known of a lot: the configuration comes first.</summary>
    /// <param name="lot">The name of the lot; null: none was named.</param>
    /// <param name="configured">What the configuration says of the lot.</param>
    public LotTerms? LotTerms(string? lot, LotTerms? configured) => lot is null ? null : configured ?? Lots.GetValueOrDefault(lot)?.Terms;

    /// <summary>The state of a fixture; a new one when nothing is known of it.</summary>
    public FixtureState FindOrNew(string fixture) => Find(fixture) ?? new(fixture);

    /// <summary>This situation with the state of one fixture changed.</summary>
    public Situation With(FixtureState state) => new(_fixtures.SetItem(state.Fixture, state.Judged(Find(state.Fixture))), Lots, StepBack, Begins);

    /// <summary>This situation after the blank in one nest was measured; the same when nobody said what stands in the nests.</summary>
    public Situation WithMeasured(string fixture, int[] nest, NestMeasurement measured) => Find(fixture) is { Load: { } load } state
        ? With(state with { Load = load with { Measured = load.Measured.SetItem((nest[0], nest[1]), measured) } })
        : this;

    /// <summary>This situation with a lot described.</summary>
    public Situation With(string lot, DescribedLot described) => new(_fixtures, Lots.SetItem(lot, described), StepBack, Begins);

    /// <summary>This situation after the clock was set back.</summary>
    public Situation With(StepBack back) => new(_fixtures, Lots, back, Begins);

    /// <summary>This situation in a ledger that begins with a given entry.</summary>
    public Situation BeginningWith(long serial) => new(_fixtures, Lots, StepBack, serial);

    /// <summary>This situation with all revisions in force prepared for decisions. It may take long, unless the same values were prepared before.</summary>
    public Situation Prepared()
    {
        var next = _fixtures.ToBuilder();
        foreach (var state in _fixtures.Values)
        {
            if (state.InForce is { } revision)
            {
                revision.Prepare();
                next[state.Fixture] = state.Judged(before: null);
            }
        }

        return new(next.ToImmutable(), Lots, StepBack, Begins);
    }

    /// <summary>A fixture that lost its folder, and about which the ledger holds nothing, is dropped: after a restart it would not be known either.</summary>
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
                next[name] = state.Judged(Find(name));
            }
        }

        return new(next.ToImmutable(), Lots, StepBack, Begins);
    }
}
