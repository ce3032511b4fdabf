using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were emptied: the measurement is void, and readings from before are void too, even if something was measured since.</summary>
internal sealed class EmptiedKind : EntryKind<EmptiedBody>
{
    public override string Name => Kinds.Emptied;

    protected override JsonTypeInfo<EmptiedBody> Json => EmptiedContext.Default.EmptiedBody;

    protected override Situation Apply(Situation situation, EmptiedBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.Fixture is { } fixture
            ? situation.With(situation.FindOrNew(fixture) with
            {
                Measurement = null,
                NoMeasurement = $"the nests were emptied or refilled (entry {body.Serial})",
                Cleared = body.Serial,
                Load = null,
                Served = situation.FindOrNew(fixture).Served with { LotSerial = 0, Lot = null },
            })
            : situation;

    protected override IReadOnlyList<string> NewestOf(EmptiedBody body, VerbTable table) => [NewestEntries.Measured, NewestEntries.Emptied];
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(EmptiedBody))]
internal sealed partial class EmptiedContext : JsonSerializerContext;
