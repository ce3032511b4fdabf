using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>What a check of a revision found.</summary>
internal sealed record CheckShape(
    string File, int Revision, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Digest,
    IEnumerable<string> Faults, IEnumerable<string> Advice, IEnumerable<FindingShape> Findings, ChangesShape? Changes, TouchedFrameShape? Touched,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] EnvelopesShape? Envelope, double Diameter, string Unit, IEnumerable<BudgetShape> Budgets);

internal sealed record FindingShape(string Severity, string? Where, string Text);

/// <summary>What a revision changes against the one before.</summary>
internal sealed record ChangesShape(int From, IEnumerable<ChangeShape> Keys);

internal sealed record ChangeShape(string Key, string? Before, string? After);
