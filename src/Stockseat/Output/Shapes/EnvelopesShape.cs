using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>Which diameters a revision holds; null where it holds none.</summary>
internal sealed record EnvelopesShape(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] EnvelopeShape? Pick,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] EnvelopeShape? Place,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] EnvelopeShape? PickUnstated);

internal sealed record EnvelopeShape(EnvelopeEndShape Least, EnvelopeEndShape Greatest, string Unit);

internal sealed record EnvelopeEndShape(double Diameter, string Constraint, string Text, double? Limit);
