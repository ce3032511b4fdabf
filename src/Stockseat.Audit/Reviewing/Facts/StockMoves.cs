using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Positions;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Audit.Reviewing.Facts;

/// <summary>How far apart the robot is sent for two diameters, or by two revisions: by the code that serves.</summary>
/// <param name="review">Has the adoptions, with their content.</param>
internal sealed class StockMoves(Review review)
{
    private readonly AdoptedRevisions _read = new();

    /// <summary>The adoption of the revision that an answer comes from; null when it is not known here.</summary>
    public RevisionAdoptedBody? Adoption(AnswerBody answer) =>
        Adoptions.LastOrDefault(a => a.Fixture == answer.Fixture && a.Revision == answer.Revision && a.Digest == answer.Digest);

    /// <summary>The revision that an adoption put into force; null when its content can't be read.</summary>
    public Revision? Revision(RevisionAdoptedBody? adoption) => adoption is null ? null : _read.Read(adoption);

    /// <summary>How far apart an answer would be for two diameters, in metres; null when that is not known.</summary>
    public double? Between(AnswerBody? answer, double? oneMetres, double? otherMetres) =>
        oneMetres is { } one && otherMetres is { } other && answer is not null && Revision(Adoption(answer)) is { } revision
            && Place(revision, answer.Purpose, one) is { } a && Place(revision, answer.Purpose, other) is { } b
            ? (a.ShiftPlan - b.ShiftPlan).Length : null;

    /// <summary>How far apart the same ask is answered by the revision of an answer and by another one, in metres; null when that is not known.</summary>
    public double? Between(AnswerBody answer, RevisionAdoptedBody adopted) =>
        Position(Revision(Adoption(answer)), answer) is { } a && Position(Revision(adopted), answer) is { } b ? (a - b).Length : null;

    private IEnumerable<RevisionAdoptedBody> Adoptions =>
        review.Adoptions.Concat(review.Entries.Select(e => e.Body).OfType<RevisionAdoptedBody>());

    private static Vector3? Position(Revision? revision, AnswerBody answer) =>
        revision is not null && revision.Layout.Has(answer.Nest[0], answer.Nest[1]) && Place(revision, answer.Purpose, answer.Diameter) is { } placed
            ? Correction.Of(
                revision.TaughtOrigin, revision.Frame, revision.Layout.OffsetBase(revision.Frame, answer.Nest[0], answer.Nest[1]), placed.ShiftPlan)
                .Pose.PositionMetres
            : null;

    private static SeatedStock? Place(Revision revision, string purpose, double diameterMetres) =>
        diameterMetres is > 0 and < 10
            ? Fit.Place(revision, diameterMetres, Fit.StandOff(revision, PurposeNames.Find(purpose) ?? Purpose.Pick)) : null;
}
