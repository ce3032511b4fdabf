using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>Positions of all nests: they change nothing.</summary>
internal sealed class GridKind : EntryKind<GridBody>
{
    public override string Name => Kinds.Grid;

    public override bool MayStand => false;

    protected override JsonTypeInfo<GridBody> Json => GridContext.Default.GridBody;

    protected override string? Fault(GridBody b, VerbTable table) => AnswerKind.FaultOf(b) ?? BodyChecks.Digest(b.PositionsDigest);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(GridBody))]
internal sealed partial class GridContext : JsonSerializerContext;
