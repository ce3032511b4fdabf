using System.Collections.Immutable;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.State;

/// <summary>Everything on which a decision about one fixture rests: the ledger, and the folder as it was last read.</summary>
public sealed record FixtureState(string Fixture)
{
    /// <summary>Why there is no measurement of a fixture of which nothing is known.</summary>
    public const string NothingMeasured = "nothing was measured";

    private static readonly ImmutableDictionary<string, StandingHold> NoHolds = ImmutableDictionary.Create<string, StandingHold>(StringComparer.Ordinal);

    /// <summary>The revision in force; null when there is none.</summary>
    public Revision? InForce { get; init; }

    /// <summary>The entry that put it into force: an answer from before that entry confirms nothing for it.</summary>
    public long AdoptedBy { get; init; }

    /// <summary>Every number that was ever adopted, with its digest.</summary>
    public ImmutableDictionary<int, string> Adopted { get; init; } = ImmutableDictionary<int, string>.Empty;

    /// <summary>Every number that was ever adopted, with the serial of its last adoption.</summary>
    public ImmutableDictionary<int, long> Adoptions { get; init; } = ImmutableDictionary<int, long>.Empty;

    /// <summary>The measurement; null when there is none, or when it is void.</summary>
    public StandingMeasurement? Measurement { get; init; }

    /// <summary>Why there is no measurement, for the text of a refusal.</summary>
    public string NoMeasurement { get; init; } = NothingMeasured;

    /// <summary>
    /// The newest entry after which older readings must not be used: the nests were emptied, the fixture was held, or a revision was adopted.
    /// </summary>
    public long Cleared { get; init; }

    /// <summary>What was received, carried out and proven since the revision came into force.</summary>
    public Progress Progress { get; init; } = Progress.None;

    /// <summary>The newest answers; entries of version 1 are not among them.</summary>
    public Served Served { get; init; } = Served.Nothing;

    /// <summary>What stands in the nests; null: nobody has said so since they were emptied.</summary>
    public Load? Load { get; init; }

    public ConfirmedShift? ConfirmedPick { get; init; }

    public ConfirmedShift? ConfirmedPlace { get; init; }

    /// <summary>The holds, by who holds: asks are answered again when the last one is released.</summary>
    public ImmutableDictionary<string, StandingHold> Holds { get; init; } = NoHolds;

    /// <summary>A recheck of the revision in force that missed: the newest that refuses asks, or else the newest; null when none missed.</summary>
    public StandingMiss? Missed { get; init; }

    /// <summary>The faulty file that was last recorded as rejected.</summary>
    public string? Rejected { get; init; }

    /// <summary>The folder as it was last read; null when it is gone.</summary>
    public FixtureFolder? Folder { get; init; }

    /// <summary>Whether the ledger holds something about the fixture that counts even without its folder.</summary>
    internal bool Recorded => !Adopted.IsEmpty || Rejected is not null || Measurement is not null || !Holds.IsEmpty || Load is not null;

    /// <summary>Whether the file of the revision in force now has other values.</summary>
    public bool Changed => InForce is { } r && (SaidChanged || AdoptionRule.Changed(Folder, r.Number, r.Digest));

    /// <summary>Whether an entry says that the file had other values when it was decided: a replay has no files.</summary>
    public bool SaidChanged { get; init; }

    /// <summary>The newest adoption, when its content can't be read: only a replay continues after one. Null: it can be read.</summary>
    public long? Unread { get; init; }

    /// <summary>Why every ask is refused now; null when asks are answered. Judged when the state changes, not again for each ask.</summary>
    public Refusal? Refused { get; private init; }

    /// <summary>Why asks would be refused even with no hold and no missed recheck: by the folder and the revision only.</summary>
    public Refusal? RefusedByFolder => Unserved.OfFolder(this);

    /// <summary>Valid revisions that wait to be adopted.</summary>
    public IEnumerable<int> Waiting => AdoptionRule.Waiting(Folder, InForce?.Number);

    /// <summary>The numbers in the folder, and all that were ever adopted, in order.</summary>
    public IEnumerable<int> Numbers => (Folder?.Files.Select(f => f.Number) ?? []).Concat(Adopted.Keys).Distinct().Order();

    /// <summary>The standing of one of these numbers.</summary>
    public RevisionStanding Standing(int number) => AdoptionRule.Standing(Folder?.Find(number), number, InForce?.Number, Adopted);

    /// <summary>What is lacking until rechecks have proven the revision in force; none when it is proven, or when none is in force.</summary>
    public IReadOnlyList<Proof.Lack> Unproven => InForce is { } revision ? Proof.Lacks(revision, Progress.Passed) : [];

    public ConfirmedShift? Confirmed(Purpose purpose) => purpose == Purpose.Pick ? ConfirmedPick : ConfirmedPlace;

    /// <summary>The same state with its verdict: whoever keeps a state keeps one with a verdict.</summary>
    /// <param name="before">The state before it, whose verdict is kept when nothing that it depends on has changed; null when there was none.</param>
    internal FixtureState Judged(FixtureState? before) => before is not null && SameVerdict(before)
        ? ReferenceEquals(Refused, before.Refused) ? this : this with { Refused = before.Refused }
        : this with { Refused = Unserved.Judge(this) };

    private bool SameVerdict(FixtureState other) => ReferenceEquals(InForce, other.InForce) && ReferenceEquals(Folder, other.Folder)
        && ReferenceEquals(Holds, other.Holds) && ReferenceEquals(Missed, other.Missed) && SaidChanged == other.SaidChanged;
}
