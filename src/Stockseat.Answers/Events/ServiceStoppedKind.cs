using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>Stops of the service.</summary>
internal sealed class ServiceStoppedKind : EntryKind<ServiceStoppedBody>
{
    public override string Name => Kinds.ServiceStopped;

    public override bool MayStand => false;

    protected override JsonTypeInfo<ServiceStoppedBody> Json => ServiceStoppedContext.Default.ServiceStoppedBody;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(ServiceStoppedBody))]
internal sealed partial class ServiceStoppedContext : JsonSerializerContext;
