using Stockseat.Answers.Emptied;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// The shift moved further than the question allows from one answer to the next of the same revision, purpose and nest, and nothing between them reports other
/// stock: no entry that the nests were emptied or refilled, and no new lot. A measurement without a lot is no such report: the same stock, measured wrongly,
/// looks the same.
/// </summary>
internal sealed class ShiftJump : IFindingRule
{
    /// <summary>
    /// How close the ratio of two diameters has to be to the factor of a slip: both diameters may be off by a hundredth, as where the slip of one is
    /// judged. Our own choice.
    /// </summary>
    private const double Near = 0.02;

    private static readonly (double Factor, string Said)[] Slips =
        [(2, "a radius was taken for a diameter"), (10, "a decimal point was put in the wrong place"), (25.4, "inches and millimetres were mixed up")];

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from served in facts.Served
        let jump = served.ChangeMetres
        where jump > facts.Review.Question.JumpMetres
        && served.Before is not null && served.Before.Digest == served.Answer.Digest && served.Before.Revision == served.Answer.Revision
        where !SaysOtherStock(facts, served)
        select Of(facts, served, served.Before!, jump!.Value);

    private static ReviewFinding Of(ReviewFacts facts, ServedAnswer served, AnswerBody before, double jump)
    {
        var answer = served.Answer;
        long[] serials = [before.Serial, .. answer.Measurement is { } m && m > before.Serial ? [m] : (long[])[], answer.Serial];
        var seen = served.Between is not null
            || facts.Shows(before.Serial) ? "" : " in the entries shown; older entries between the two answers were not examined";
        var slip = Slip(before.Diameter, answer.Diameter) is { } said ? $" One diameter is about {said.Times} times the other, as when {said.Said}."
            : Swapped(before.Diameter, answer.Diameter) is { } swapped
            ? $" {swapped.One} and {swapped.Other} differ only by two digits that changed places, as when a number is typed wrongly." : "";
        return new(
            FindingRule.ShiftJump, serials, answer.Fixture,
            $"At {facts.Text.Time(answer)} the shift for a {answer.Purpose} at nest {answer.Nest[0]},{answer.Nest[1]} of {answer.Fixture} moved by "
                + $"{facts.Text.Length(jump)} from answer {FindingText.Whole(before.Serial)} ({facts.Text.Diameter(before)}) to answer "
                + $"{FindingText.Whole(answer.Serial)} ({facts.Text.Diameter(answer)}), and nothing says that the stock was changed{seen}.{slip}",
            "If the stock was the same, one of the two shifts was wrong by that much, and the robot was sent to the wrong place.",
            "Measure the stock that is in the nests, and compare with both diameters. If it was changed, have that reported (emptied), so that an old "
                + "measurement can't be used; and run the next answer marked first at reduced speed, with people clear.")
        {
            MovedMetres = jump,
        };
    }

    private static bool SaysOtherStock(ReviewFacts facts, ServedAnswer served)
    {
        var (answer, before) = (served.Answer, served.Before!);
        var between = served.Between ?? facts.Between(answer.Fixture, before.Serial, answer.Serial);
        return Other(answer.Lot, before.Lot) || between.Any(e => e is EmptiedBody || (e is MeasurementBody m && Other(m.Lot, before.Lot)));
    }

    private static bool Other(string? lot, string? before) => lot is not null && lot != before;

    /// <summary>Two diameters that have the same digits, but for two neighbours that changed places, in one of the units that people type.</summary>
    private static (string One, string Other)? Swapped(double one, double other)
    {
        foreach (var unit in (LengthUnit[])[LengthUnit.Millimetre, LengthUnit.Inch])
        {
            var (a, b) = (unit.Fixed(one), unit.Fixed(other));
            var (x, y) = (a.Replace(".", "", StringComparison.Ordinal), b.Replace(".", "", StringComparison.Ordinal));
            int[] differ = x.Length == y.Length ? [.. Enumerable.Range(0, x.Length).Where(i => x[i] != y[i])] : [];
            if (differ is [var i, var j] && j == i + 1 && x[i] == y[j] && x[j] == y[i])
            {
                return (unit.Text(one), unit.Text(other));
            }
        }

        return null;
    }

    private static (string Times, string Said)? Slip(double one, double other)
    {
        var ratio = Math.Max(one, other) / Math.Min(one, other);
        var found = Array.Find(Slips, s => Math.Abs(ratio / s.Factor - 1) <= Near);
        return found.Said is null ? null : (Rounded.Short(found.Factor, 1), found.Said);
    }
}
