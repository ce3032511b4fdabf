using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A pick was served for a diameter that the controller stated, while a valid measurement gave another one.</summary>
internal sealed class StatedNotMeasured : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from served in facts.Served
        let answer = served.Answer
        where answer.Measurement is null && answer.Purpose == "pick"
        let measured = facts.Standing(answer.Fixture, answer.Serial)
        where measured is not null && Math.Abs(answer.Diameter - measured.Diameter) > Allowed(facts.Review.Question, measured.LotTerms) + ReviewFacts.Rounding
        group answer by (measured, answer.Client, answer.Diameter) into same
        select Of(facts, same.Key.measured, [.. same]);

    /// <summary>A program that states its own diameter does so each time, which is one finding.</summary>
    private static ReviewFinding Of(ReviewFacts facts, MeasurementBody measured, AnswerBody[] answers)
    {
        var first = answers[0];
        var more = answers.Length == 1 ? ""
            : $", and again for {FindingText.Count(answers.Length - 1, "more answer")}, {FindingText.Serials([.. answers.Skip(1).Select(a => a.Serial)])}";
        return new(
            FindingRule.StatedNotMeasured, [measured.Serial, .. answers.Select(a => a.Serial)], first.Fixture,
            $"At {facts.Text.Time(first)} {FindingText.Controller(first)} stated a diameter of {facts.Text.Length(first.Diameter)} for a pick from "
                + $"{first.Fixture} (answer {FindingText.Whole(first.Serial)}{more}), while measurement "
                + $"{FindingText.Whole(measured.Serial)}{FindingText.OfLot(measured.Lot)} of {facts.Text.Time(measured)} said "
                + $"{facts.Text.Length(measured.Diameter)}: {facts.Text.Length(Math.Abs(first.Diameter - measured.Diameter))} apart.",
            "The shift was for a diameter that was not measured: if the measurement was right, the robot was sent to the wrong place for this stock.",
            "Measure the stock that is in the nests and see which diameter is right. If finished pieces were picked up again, the stated one may be right; "
                + "otherwise have "
                + "the program ask without a diameter, so that the measurement counts.")
        {
            MovedMetres = facts.Moves.Between(first, first.Diameter, measured.Diameter),
        };
    }

    /// <summary>
    /// The larger of two values: the tolerance of the lot, since pieces of one lot differ by that much and a program may know its own piece; and the jump
    /// that is asked about, since a seat's centre moves by about half of a change of the diameter, up to all of it in a 60° vee, and a gauge and a
    /// nominal never agree exactly.
    /// </summary>
    private static double Allowed(ReviewQuestion question, LotTerms? lot) => Math.Max(question.JumpMetres, lot?.Greatest - lot?.Least ?? 0);
}
