using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A controller read back another number than it was served.</summary>
internal sealed class ReadBackDiffers : IFindingRule
{
    private const string Reason = "readback-differs";

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        var refusals = facts.Bodies.OfType<RefusalBody>().Concat(facts.Served.SelectMany(s => s.Misread)).DistinctBy(r => r.Serial).OrderBy(r => r.Serial);
        return refusals.Where(IsIt).GroupBy(r => (r.Confirms, r.Client)).Select(g => Of(facts, [.. g]));
    }

    /// <summary>Whether a refusal is of this rule.</summary>
    public static bool IsIt(RefusalBody refusal) => refusal is { Asked: "confirm", Reason: Reason, Confirms: not null, Limits: not null };

    private static ReviewFinding Of(ReviewFacts facts, RefusalBody[] refusals)
    {
        var first = refusals[0];
        var answer = facts.Answer(first.Confirms!.Value);
        var (name, served, read) = (
            first.Limits!.GetValueOrDefault("name", "?"), first.Limits!.GetValueOrDefault("served", "?"), first.Limits!.GetValueOrDefault("read", "?"));
        var (said, off, older) = Compare(facts, answer, first.Confirms.Value, name, served, read);
        var apart = refusals.Select(r => Apart(facts, answer, r)).ToArray();
        var (moved, below) = (apart.Any(a => a.Metres is null) ? null : apart.Max(a => a.Metres), apart.All(a => a.BelowResolution));
        var more = refusals.Length > 1 ? $" (and {FindingText.Count(refusals.Length - 1, "more time", "more times")}, "
            + $"{FindingText.Entries([.. refusals.Skip(1).Select(r => r.Serial)])})" : "";
        var later = facts.Served.FirstOrDefault(s => s.Answer.Serial == first.Confirms)?.ConfirmedBy is { } by && by > refusals[^1].Serial
            ? $"; it read back what was served later (entry {FindingText.Whole(by)})" : "";
        return new(
            FindingRule.ReadBackDiffers, [answer?.Serial ?? first.Confirms.Value, .. refusals.Select(r => r.Serial)], first.Fixture,
            $"At {facts.Text.Time(first)} {FindingText.Controller(first)} read back {said}{more}{older}{off}{later}."
                + (below ? " That is less than the last digit that was served: the controller rounds, or shows more digits than it was given." : ""),
            "The controller did not hold the numbers that were served for this stock: it moved by something that Stockseat does not know.",
            "Keep the robot stopped and compare the controller's registers with the answer, number by number and unit by unit; then look at how its program "
                + "parses and stores a reply, and at the number that it falls back to.")
        {
            MovedMetres = moved, BelowResolution = below,
        };
    }

    /// <summary>How far the robot may be off by a read-back, and whether that is less than the last digit served; not known for an orientation.</summary>
    private static (double? Metres, bool BelowResolution) Apart(ReviewFacts facts, AnswerBody? answer, RefusalBody refusal)
    {
        var name = refusal.Limits!.GetValueOrDefault("name", "?");
        if (answer is null || !answer.TryNumber(name, out _)
            || Parse(refusal.Limits!.GetValueOrDefault("served", "?")) is not { } served
            || Parse(refusal.Limits!.GetValueOrDefault("read", "?")) is not { } read)
        {
            return (null, false);
        }

        // Less than one unit of the last digit, but for what the difference of two doubles is rounded by.
        var below = Math.Abs(read - served) < Math.Pow(10, -answer.Decimals) * 0.999999;
        var factor = Math.Pow(10, answer.Exponent(name));
        return name[0] == 'q' ? (null, below)
            : (name == "diameter" ? facts.Moves.Between(answer, read / factor, served / factor) : Math.Abs(read - served) / factor, below);
    }

    /// <summary>What was read and served, how far the robot may be off, and which older answer the number is of.</summary>
    private static (string Said, string Off, string Older) Compare(ReviewFacts facts, AnswerBody? answer, long serial, string name, string served, string read)
    {
        if (answer is null || !answer.TryNumber(name, out _) || Parse(served) is not { } s || Parse(read) is not { } r)
        {
            // Without the answer its unit is not known, so the numbers are shown as they came.
            return ($"{read} as \"{name}\" of answer {FindingText.Whole(serial)}, which had served {served}", "", "");
        }

        var which = $"answer {FindingText.Whole(answer.Serial)} of {answer.Fixture}, which had served";
        var other = Older(facts, answer, name, read);
        string OfOlder(string shown) => other is null ? "" : $", and {shown} is the {name} of answer {FindingText.Whole(other.Serial)}";
        if (name[0] == 'q')
        {
            return ($"{read} as \"{name}\" of {which} {served}", ": the gripper may have had another orientation than it was taught", OfOlder(read));
        }

        var factor = Math.Pow(10, answer.Exponent(name));
        var (readText, servedText) = facts.Text.Apart(r / factor, s / factor);
        var off = name == "diameter"
            ? $": it may have worked with a diameter that is {Difference(facts, r, s, factor)} off"
            : $": the robot may have moved {Difference(facts, r, s, factor)} off";
        return ($"{readText} as \"{name}\" of {which} {servedText}", off + Slip(r, s), OfOlder(readText));
    }

    private static string Difference(ReviewFacts facts, double read, double served, double factor) => facts.Text.Apart(Math.Abs(read - served) / factor, 0).One;

    /// <summary>A wrong sign and a wrong unit show in the numbers themselves.</summary>
    private static string Slip(double read, double served) =>
        read == 0 ? ", and a register that was never set holds 0"
        : read == -served ? ", a wrong sign"
        : served != 0 && Math.Abs(read / served) is var ratio
        && (Near(ratio, 1000) || Near(ratio, 0.001)) ? ", a wrong unit: one number is 1000 times the other"
        : "";

    /// <summary>Numbers are read back with few digits.</summary>
    private static bool Near(double ratio, double to) => Math.Abs(ratio / to - 1) < 0.001;

    /// <summary>The newest other answer of that fixture, from before, whose number it is; 0 says nothing.</summary>
    private static AnswerBody? Older(ReviewFacts facts, AnswerBody answer, string name, string read) => facts.Answers.LastOrDefault(a =>
        a.Serial < answer.Serial && a.Fixture == answer.Fixture && Parse(read) is not 0 && a.TryNumber(name, out var value)
        && FixedPoint.TryCompare(read, value, answer.Decimals, out var same, answer.Exponent(name)) && same);

    private static double? Parse(string text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;
}
