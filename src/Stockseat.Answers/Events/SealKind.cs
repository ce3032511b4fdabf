using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>Seals.</summary>
internal sealed class SealKind : EntryKind<SealBody>
{
    public override string Name => Kinds.Seal;

    public override bool MayStand => false;

    protected override JsonTypeInfo<SealBody> Json => SealContext.Default.SealBody;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(SealBody))]
internal sealed partial class SealContext : JsonSerializerContext;
