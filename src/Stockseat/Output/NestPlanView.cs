using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Fixtures.Planning;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;

namespace Stockseat.Cli.Output;

/// <summary>Planned nests for people: lengths in millimetres, angles in degrees.</summary>
internal static class NestPlanView
{
    public static void Print(NestPlanning planning, int shown)
    {
        var question = planning.Question;
        Plain.Line(planning.Holding > 0
            ? $"{planning.Holding} of {planning.Judged.Count} {(planning.Holding == 1 ? "holds" : "hold")} {Range(question)}{Left(planning)}:"
            : $"None of {planning.Judged.Count} holds {Range(question)}{Left(planning)}; the nearest ones, and what stops each:");
        Plain.Table(
            ["nest", "holds", "half-angle", "sensitivity", "margin", "shift", "smallest gap", "envelope", "what limits it below | above"],
            planning.Judged.Take(shown).Select(j => (IReadOnlyList<string>)
            [
                Name(j.Candidate), j.Holds ? "yes" : "no", Both(j.HalfAngleRadians, 180 / Math.PI, "0.0"), Both(j.Sensitivity, 1, "0.000"),
                Number(j.MarginRadians * 180 / Math.PI, "0.0"), Number(1000 * j.ShiftMetres, "0.00"), Gap(j.Gap), Envelope(j), Binds(j),
            ]));
        Plain.Line(
            $"Lengths in mm, angles in deg; half-angle and sensitivity at {Wording.Millimetres(question.RangeMetres.From)} | "
                + $"{Wording.Millimetres(question.RangeMetres.To)} mm.");
        Plain.Line(Rule(question));
        if (planning.Judged.Take(shown).Any(j => j.FaceMetres is not null) && question.FaceMetres is null)
        {
            Plain.Line("The faces of a vee are assumed to end a tenth beyond the contact of the largest stock; --face states another length.");
        }

        if (shown < planning.Judged.Count)
        {
            Plain.Line($"{planning.Judged.Count - shown} more are not shown; --count shows more.");
        }

        Plain.Line(Caution.Short("A plan"));
    }

    /// <summary>How the nests are ordered, in one line.</summary>
    public static string Rule(PlanningQuestion question) => string.Create(
        CultureInfo.InvariantCulture,
        $"Best first: nests that hold the whole range; then those that hold more of it; then the larger margin: how far the angle between seat axis and "
            + $"contact stays from {Degrees(question.HeldRadians)} deg (held loosely) and from {Degrees(question.MostContactRadians)} deg (sensitivity "
            + $"{question.Sensitivity:0.###}), whichever is nearer; then the larger gap.");

    /// <summary>The name of a candidate.</summary>
    public static string Name(Candidate candidate) => candidate.Kind == LocatorKind.Face
        ? $"vee {Degrees(candidate.IncludedRadians)}"
        : $"pins {Wording.Millimetres(candidate.PinDiameterMetres)}, {Wording.Millimetres(candidate.SpacingMetres)} "
        + $"apart{(candidate.Holes is { } holes ? $" ({holes} {(holes == 1 ? "pitch" : "pitches")})" : "")}";

    private static string Range(PlanningQuestion question) =>
        $"{Wording.Millimetres(question.RangeMetres.From)} mm to {Wording.Millimetres(question.RangeMetres.To)} mm";

    private static string Left(NestPlanning planning) => planning.Overlapping > 0 ? $" ({planning.Overlapping} left out: their pins would overlap)" : "";

    private static string Binds(JudgedCandidate j) => j.Envelope is { } envelope
        ? $"{EnvelopeText.Of(envelope.Least)} | {EnvelopeText.Of(envelope.Greatest)}"
        : j.Violated is { } violated ? $"at {Wording.Millimetres(violated.DiameterMetres)}: {EnvelopeText.Of(violated)}" : "";

    /// <summary>Rounded inward: never shown too wide.</summary>
    private static string Envelope(JudgedCandidate j) => j.Envelope is { } e
        ? $"{Inward(e.Least, Math.Ceiling, -1)} to {Inward(e.Greatest, Math.Floor, 1)}"
        : "none";

    private static string Inward(EnvelopeEnd end, Func<double, double> round, int outward) =>
        (round((1e5 * end.DiameterMetres) + (outward * 1e-6)) / 100).ToString("0.00", CultureInfo.InvariantCulture);

    private static string Gap(SmallestGap? gap) => gap is { } g
        ? string.Create(CultureInfo.InvariantCulture, $"{1000 * g.Reading.Metres:0.00} {Wording.Of(g.Reading, [])}, at {Wording.Millimetres(g.DiameterMetres)}")
        : "";

    private static string Both((double? From, double? To) pair, double factor, string format) =>
        $"{Number(factor * pair.From, format, "none")} | {Number(factor * pair.To, format, "none")}";

    private static string Number(double? value, string format, string absent = "") => value?.ToString(format, CultureInfo.InvariantCulture) ?? absent;

    private static string Degrees(double radians) => (radians * 180 / Math.PI).ToString("0.###", CultureInfo.InvariantCulture);
}
