using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Adopt;

/// <summary>Somebody puts a revision into force.</summary>
internal sealed class AdoptVerb : Verb<AdoptAsk, RevisionAdoptedBody>
{
    public override string Name => AdoptAsk.VerbName;

    public override EntryKind Kind { get; } = new RevisionAdoptedKind();

    public override string Outcome => "adoption";

    public override bool RefusalNamesRevisionInForce => true;

    protected override EntryBody Decide(AdoptAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) => Adopting.Decide(ask, situation);

    /// <summary>An adoption is decided on a folder, and no ledger holds the folder.</summary>
    protected override AdoptAsk? AskOf(RevisionAdoptedBody b) => null;

    protected override AdoptAsk? AskOfRefused(RefusalBody b) => b.Adopts is { } number
        ? new(Caller.Of(b), b.Fixture ?? "", number) { By = "", Why = "", Folder = null, Digest = b.AdoptsDigest }
        : null;

    protected override bool IsSame(AdoptAsk a, RevisionAdoptedBody b) => a.Fixture == b.Fixture && a.Number == b.Revision
        && (a.Digest is null || b.Digest?.StartsWith(a.Digest, StringComparison.Ordinal) == true);

    protected override bool IsSameRefused(AdoptAsk a, RefusalBody r) => (a.Number, a.Digest) == (r.Adopts, r.AdoptsDigest);

    protected override string? Lapsed(RevisionAdoptedBody first, DecidedAfresh now) => now.Of(first) is { AdoptedBy: var by, InForce: var revision }
        ? by == first.Serial && revision?.Digest == first.Digest ? null : $"revision {revision?.Number} is in force since entry {by}"
        : "the fixture is gone";
}
