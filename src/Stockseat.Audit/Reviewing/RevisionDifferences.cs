using System.Text;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Audit.Reviewing;

/// <summary>What the adoptions among the findings changed, by the comparison that a check of a revision's file shows.</summary>
internal static class RevisionDifferences
{
    /// <summary>In the order of the findings; an adoption whose content can't be read is left out.</summary>
    public static IReadOnlyList<AdoptionChanges> Of(ReviewFacts facts, IEnumerable<ReviewFinding> findings) =>
    [
        .. findings.Where(f => f.Rule == FindingRule.AdoptionBetween).SelectMany(f => Of(facts, f)).DistinctBy(c => c.Serial),
    ];

    /// <summary>Each of its adoptions compared with the one before it, the first with the revision of the answer before.</summary>
    private static IEnumerable<AdoptionChanges> Of(ReviewFacts facts, ReviewFinding finding)
    {
        var before = finding.Serials.Select(facts.Answer).OfType<AnswerBody>().FirstOrDefault();
        var revision = before is null ? null : facts.Moves.Adoption(before) is { } adoption ? Reading(adoption) : null;
        foreach (var adopted in facts.Bodies.OfType<RevisionAdoptedBody>().Where(a => finding.Serials.Contains(a.Serial)))
        {
            if (Reading(adopted) is not { } next)
            {
                continue;
            }

            if (revision is { } was && before!.Serial < adopted.Serial)
            {
                yield return new(adopted.Serial, adopted.Fixture!, was.Revision!.Number, next.Revision!.Number, RevisionChanges.Between(was, next));
            }

            revision = next;
        }
    }

    private static RevisionReading? Reading(RevisionAdoptedBody adopted) =>
        RevisionReader.FromContent(Encoding.UTF8.GetBytes(adopted.Content.GetRawText()), $"entry {FindingText.Whole(adopted.Serial)}") is var reading
            && reading.Revision?.Digest == adopted.Digest ? reading : null;
}
