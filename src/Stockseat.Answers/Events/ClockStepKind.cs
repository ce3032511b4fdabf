using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Events;

/// <summary>Steps of the clock. Only a step back makes the age of a measurement doubtful.</summary>
internal sealed class ClockStepKind : EntryKind<ClockStepBody>
{
    public override string Name => Kinds.ClockStep;

    protected override JsonTypeInfo<ClockStepBody> Json => ClockStepContext.Default.ClockStepBody;

    protected override string? Fault(ClockStepBody b, VerbTable table) => BodyChecks.Seconds("seconds", Math.Abs(b.Seconds));

    /// <summary>After a step forward, an age by the clock can only be too long.</summary>
    protected override Situation Apply(Situation situation, ClockStepBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.Seconds < 0 ? situation.With(new StepBack(body.Serial, -body.Seconds, body.AtStart)) : situation;

    protected override bool Stands(ClockStepBody body, Situation situation, NewestEntries newest) => body.Serial == situation.StepBack?.Serial;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(ClockStepBody))]
internal sealed partial class ClockStepContext : JsonSerializerContext;
