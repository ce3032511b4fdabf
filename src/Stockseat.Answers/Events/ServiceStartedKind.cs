using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>Starts of the service.</summary>
internal sealed class ServiceStartedKind : EntryKind<ServiceStartedBody>
{
    public override string Name => Kinds.ServiceStarted;

    public override bool MayStand => false;

    protected override JsonTypeInfo<ServiceStartedBody> Json => ServiceStartedContext.Default.ServiceStartedBody;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(ServiceStartedBody))]
internal sealed partial class ServiceStartedContext : JsonSerializerContext;
