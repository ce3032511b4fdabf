using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// Between two picks, the first of a lot, another lot was measured, and nobody said that the nests were emptied. Since version 2 such a push is refused.
/// </summary>
internal sealed class OtherLotBetween : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from served in facts.Served
        where served is { Before: { Lot: not null, Purpose: not "place" } }
        from push in Others(facts, served.Before!, served)
        group (Push: push, Served: served) by push.Serial into found
        select Of(facts, found.First().Push, found.Select(f => f.Served).MinBy(s => s.Answer.Serial)!);

    /// <summary>The pushes of other lots between two answers, when nothing between them says that the nests were emptied.</summary>
    private static IEnumerable<EntryBody> Others(ReviewFacts facts, AnswerBody before, ServedAnswer served)
    {
        var here = facts.Between(before.Fixture, before.Serial, served.Answer.Serial).ToArray();
        var all = here.Concat(served.Between ?? []).DistinctBy(b => b.Serial).OrderBy(b => b.Serial).ToArray();
        return all.OfType<EmptiedBody>().Any() || facts.Emptied(before.Fixture, before.Serial, served.Answer.Serial).Any() ? []
            : all.Where(b => Lot(b) is { } lot && lot != before.Lot);
    }

    private static string? Lot(EntryBody body) => body switch
    {
        MeasurementBody m => m.Lot,
        RefusalBody { Asked: MeasureAsk.VerbName, Number: (int)Reason.LotStillLoaded } r => r.Lot,
        _ => null,
    };

    private static ReviewFinding Of(ReviewFacts facts, EntryBody push, ServedAnswer served)
    {
        var (before, answer) = (served.Before!, served.Answer);
        var refused = push as RefusalBody;
        var diameter = (push as MeasurementBody)?.Diameter ?? refused?.Diameter;
        var measured = diameter is { } d ? $", {facts.Text.Length(d)}" : "";
        return new(
            FindingRule.OtherLotBetween, [before.Serial, push.Serial, answer.Serial], answer.Fixture,
            $"At {facts.Text.Time(push)} lot {Lot(push)} was measured for {answer.Fixture} (entry {FindingText.Whole(push.Serial)}{measured}), between answer "
                + $"{FindingText.Whole(before.Serial)} of lot {before.Lot} and answer {FindingText.Whole(answer.Serial)} (a {answer.Purpose} with "
                + $"{facts.Text.Diameter(answer)}), and nobody said that the nests were emptied."
                + $"{(refused is null ? "" : $" That push was refused ({refused.Reason}), so no answer used its diameter.")}",
            "Stock of both lots may have stood in the nests, or one lot was measured while the other was still being picked: the robot may have had the "
                + "diameter of the wrong one.",
            "Look which lot stands in the nests, and measure it. Have whoever refills the nests, or the program, say emptied each time.")
        {
            MovedMetres = Moved(facts, answer, before.Diameter, diameter),
        };
    }

    /// <summary>From where the robot was sent to where it should have been sent for the stock of the other lot, whichever of the two that is.</summary>
    private static double? Moved(ReviewFacts facts, AnswerBody answer, double before, double? pushed)
    {
        double?[] moves = [facts.Moves.Between(answer, answer.Diameter, before), facts.Moves.Between(answer, answer.Diameter, pushed)];
        return moves.Max();
    }
}
