using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>Stops that were not clean.</summary>
internal sealed class UncleanStopKind : EntryKind<UncleanStopBody>
{
    public override string Name => Kinds.UncleanStop;

    public override bool MayStand => false;

    protected override JsonTypeInfo<UncleanStopBody> Json => UncleanStopContext.Default.UncleanStopBody;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(UncleanStopBody))]
internal sealed partial class UncleanStopContext : JsonSerializerContext;
