using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Snapshots;

/// <summary>Everything that counts, written again and again. It changes nothing.</summary>
internal sealed class SnapshotKind : EntryKind<SnapshotBody>
{
    public override string Name => Kinds.Snapshot;

    public override int Longest => LongestCarrying;

    public override bool MayStand => false;

    protected override JsonTypeInfo<SnapshotBody> Json => SnapshotContext.Default.SnapshotBody;

    protected override string? Fault(SnapshotBody b, VerbTable table) => CarriedBody.Fault(b.Carried, table);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(SnapshotBody))]
internal sealed partial class SnapshotContext : JsonSerializerContext;
