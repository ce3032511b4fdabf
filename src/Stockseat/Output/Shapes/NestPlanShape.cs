namespace Stockseat.Cli.Output.Shapes;

/// <summary>Planned nests: metres and radians.</summary>
internal sealed record NestPlanShape(
    double From, double To, string Unit, string AngleUnit, double SensitivityLimit, double HeldAngleLimit, int Candidates, int Holding, int Overlapping,
    string Rule,
    IEnumerable<PlannedNestShape> Nests, double? GapLimit);

/// <summary>One of them: a vee, or two pins.</summary>
internal sealed record PlannedNestShape(
    string Nest, double? IncludedAngle, double? Pin, double? Spacing, int? Pitches, bool Holds, double Share, SpanShape? HalfAngle, SpanShape? ContactAngle,
    SpanShape? Sensitivity, double? Margin, double? Shift, double? Face, PlannedGapShape? Gap, PlannedEnvelopeShape? Envelope, PlannedEndShape? Violated);

internal sealed record SpanShape(double? From, double? To);

internal sealed record PlannedEnvelopeShape(PlannedEndShape Least, PlannedEndShape Greatest);

internal sealed record PlannedEndShape(double Diameter, string Binds, double? Limit, PlannedGapShape? Gap);

/// <summary>A gap; the smallest one with the diameter at which it is so small.</summary>
internal sealed record PlannedGapShape(double Length, PartyShape Mine, PartyShape Theirs, string? Jaws, double? Diameter = null);

internal sealed record PartyShape(string Kind, int? Number, int[]? Nest);
