using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>What a replay found; of one entry also its working.</summary>
internal sealed record ReplayShape(
    bool Agrees, long First, long Last, long Answers, long Refusals, long Others, long Same, long Within, long Given,
    IEnumerable<DifferenceShape> Differences, long MoreDifferences, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Unreadable)
{
    public long? Serial { get; init; }

    public IEnumerable<WorkingSectionShape>? Sections { get; init; }
}

internal sealed record DifferenceShape(long Serial, string Kind, string Text, IEnumerable<FieldShape> Fields);

/// <summary>What both have at a place, as JSON; null: nothing.</summary>
internal sealed record FieldShape(
    string Path, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Recorded,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Recomputed);

internal sealed record WorkingSectionShape(string Title, IEnumerable<WorkingLineShape> Lines);

internal sealed record WorkingLineShape(
    string Symbol, string Text, string Formula, [property: JsonNumberHandling(JsonNumberHandling.AllowNamedFloatingPointLiterals)] IReadOnlyList<double> Values,
    string Unit);
