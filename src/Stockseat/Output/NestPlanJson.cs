using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Planning;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;

namespace Stockseat.Cli.Output;

/// <summary>Planned nests for machines: metres and radians; what is not known is absent.</summary>
internal static class NestPlanJson
{
    public static NestPlanShape Of(NestPlanning planning, int shown)
    {
        var q = planning.Question;
        return new(
            q.RangeMetres.From, q.RangeMetres.To, "m", "rad", q.Sensitivity, q.HeldRadians, planning.Judged.Count, planning.Holding, planning.Overlapping,
            NestPlanView.Rule(q), planning.Judged.Take(shown).Select(Of), q.HasGaps ? q.GapMetres : null);
    }

    private static PlannedNestShape Of(JudgedCandidate j)
    {
        var (c, isVee) = (j.Candidate, j.Candidate.Kind == LocatorKind.Face);
        return new(
            isVee ? "vee" : "pins", isVee ? c.IncludedRadians : null, isVee ? null : c.PinDiameterMetres, isVee ? null : c.SpacingMetres,
            isVee ? null : c.Holes, j.Holds, j.Share, Of(j.HalfAngleRadians), Of(j.HeldRadians), Of(j.Sensitivity), j.MarginRadians, j.ShiftMetres,
            j.FaceMetres, j.Gap is { } gap ? Of(gap.Reading) with { Diameter = gap.DiameterMetres } : null,
            j.Envelope is { } envelope ? new(Of(envelope.Least), Of(envelope.Greatest)) : null,
            j.Envelope is null && j.Violated is { } violated ? Of(violated) : null);
    }

    private static PlannedEndShape Of(EnvelopeEnd end) =>
        new(end.DiameterMetres, Binding.Name(end.Constraint), end.Limit, end.Gap is { } gap ? Of(gap) : null);

    private static PlannedGapShape Of(GapReading gap) =>
        new(gap.Metres, Of(gap.Mine), Of(gap.Theirs), gap.Jaws switch { Jaws.None => null, Jaws.Open => "open", _ => "closed" });

    private static PartyShape Of(Party party) =>
        new(EnvelopeText.Kind(party.Kind), party.Number > 0 ? party.Number : null, party is { Column: 0, Row: 0 } ? null : [party.Column, party.Row]);

    private static SpanShape? Of((double? From, double? To) pair) => pair is (null, null) ? null : new(pair.From, pair.To);
}
