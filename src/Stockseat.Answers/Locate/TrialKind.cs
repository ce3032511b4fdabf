using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>Trials: they change nothing.</summary>
internal sealed class TrialKind : EntryKind<TrialBody>
{
    public override string Name => Kinds.Trial;

    public override bool MayStand => false;

    protected override JsonTypeInfo<TrialBody> Json => TrialContext.Default.TrialBody;

    protected override string? Fault(TrialBody b, VerbTable table) => AnswerKind.FaultOf(b);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(TrialBody))]
internal sealed partial class TrialContext : JsonSerializerContext;
