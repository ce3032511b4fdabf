using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Loading;

/// <summary>Moves that were dropped: the last one of a load is remembered, so that it can be said again.</summary>
internal sealed class DroppedKind : EntryKind<DroppedBody>
{
    public override string Name => Kinds.Dropped;

    protected override JsonTypeInfo<DroppedBody> Json => DroppedContext.Default.DroppedBody;

    protected override string? Fault(DroppedBody b, VerbTable table) =>
        BodyChecks.Missing("fixture", b.Fixture) ?? BodyChecks.OfPurpose(b.Purpose) ?? BodyChecks.Nest(b.Nest);

    protected override Situation Apply(Situation situation, DroppedBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.Again is null && situation.Find(body.Fixture!) is { Load: { } load } state && load.Serial == body.Load
            ? situation.With(state with { Load = load.WithDropped(body.Answer, body.Serial) })
            : situation;

    protected override bool Stands(DroppedBody body, Situation situation, NewestEntries newest) =>
        situation.Find(body.Fixture!)?.Load?.Dropped?.Serial == body.Serial;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(DroppedBody))]
internal sealed partial class DroppedContext : JsonSerializerContext;
