using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Fixtures.Planning;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Output;

/// <summary>Planned nests for people: lengths in the unit of the display, angles in degrees.</summary>
internal static class NestPlanView
{
    public static void Print(NestPlanning planning, int shown, LengthUnit unit)
    {
        var question = planning.Question;
        Plain.Line(planning.Holding > 0
            ? $"{planning.Holding} of {planning.Judged.Count} {(planning.Holding == 1 ? "holds" : "hold")} {Range(question, unit)}{Left(planning)}:"
            : $"None of {planning.Judged.Count} holds {Range(question, unit)}{Left(planning)}; the nearest ones, and what stops each:");
        Plain.Table(
            ["nest", "holds", "half-angle", "sensitivity", "margin", "shift", "smallest gap", "envelope", "what limits it below | above"],
            planning.Judged.Take(shown).Select(j => (IReadOnlyList<string>)
            [
                Name(j.Candidate, unit), j.Holds ? "yes" : "no", Both(j.HalfAngleRadians, 180 / Math.PI, 1), Both(j.Sensitivity, 1, 3),
                Number(j.MarginRadians * 180 / Math.PI, 1), j.ShiftMetres is { } shift ? unit.Fixed(shift, -1) : "", Gap(j.Gap, unit), Envelope(j, unit),
                Binds(j, unit),
            ]));
        Plain.Line(
            $"Lengths in {unit.Name}, angles in deg; half-angle and sensitivity at {unit.Short(question.RangeMetres.From)} | "
                + $"{unit.Text(question.RangeMetres.To)}.");
        Plain.Line(Rule(question));
        if (planning.Judged.Take(shown).Any(j => j.FaceMetres is not null) && question.FaceMetres is null)
        {
            Plain.Line("The faces of a vee are assumed to reach 10 % farther from the apex than where the largest stock touches them; "
                + "--face states another length.");
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
            + $"{Rounded.Short(question.Sensitivity, 3)}), whichever is nearer; then the larger gap.");

    /// <summary>The name of a candidate.</summary>
    public static string Name(Candidate candidate, LengthUnit unit) => candidate.Kind == LocatorKind.Face
        ? $"vee {Degrees(candidate.IncludedRadians)}"
        : $"pins {unit.Short(candidate.PinDiameterMetres)}, {unit.Short(candidate.SpacingMetres)} "
        + $"apart{(candidate.Holes is { } holes ? $" ({holes} {(holes == 1 ? "pitch" : "pitches")})" : "")}";

    private static string Range(PlanningQuestion question, LengthUnit unit) =>
        $"{unit.Text(question.RangeMetres.From)} to {unit.Text(question.RangeMetres.To)}";

    private static string Left(NestPlanning planning) => planning.Overlapping > 0 ? $" ({planning.Overlapping} left out: their pins would overlap)" : "";

    private static string Binds(JudgedCandidate j, LengthUnit unit) => j.Envelope is { } envelope
        ? $"{EnvelopeText.Of(envelope.Least, unit)} | {EnvelopeText.Of(envelope.Greatest, unit)}"
        : j.Violated is { } violated ? $"at {unit.Short(violated.DiameterMetres)}: {EnvelopeText.Of(violated, unit)}" : "";

    /// <summary>Rounded inward: never shown too wide.</summary>
    private static string Envelope(JudgedCandidate j, LengthUnit unit) => j.Envelope is { } e
        ? $"{unit.Ceiling(e.Least.DiameterMetres, -1)} to {unit.Floor(e.Greatest.DiameterMetres, -1)}"
        : "none";

    private static string Gap(SmallestGap? gap, LengthUnit unit) => gap is { } g
        ? $"{unit.Fixed(g.Reading.Metres, -1)} {Wording.Of(g.Reading, [])}, at {unit.Short(g.DiameterMetres)}"
        : "";

    private static string Both((double? From, double? To) pair, double factor, int decimals) =>
        $"{Number(factor * pair.From, decimals, "none")} | {Number(factor * pair.To, decimals, "none")}";

    private static string Number(double? value, int decimals, string absent = "") => value is { } v ? Rounded.Fixed(v, decimals) : absent;

    private static string Degrees(double radians) => Rounded.Short(radians * 180 / Math.PI, 3);
}
