using System.Globalization;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Recheck;

/// <summary>Rechecks. Of those that missed, the newest that refuses asks counts; when none refuses, the newest of all.</summary>
internal sealed class RecheckKind : EntryKind<RecheckBody>
{
    public override string Name => Kinds.Recheck;

    protected override JsonTypeInfo<RecheckBody> Json => RecheckContext.Default.RecheckBody;

    protected override string? Fault(RecheckBody b, VerbTable table) =>
        BodyChecks.Nest(b.Nest) ?? BodyChecks.Size("master", b.Master) ?? BodyChecks.Metre("masterWithin", b.MasterWithin)
        ?? BodyChecks.Metres("predicted", b.Predicted, 3) ?? BodyChecks.Metres("found", b.Found, 3) ?? BodyChecks.Metres("missBase", b.MissBase, 3)
        ?? BodyChecks.Metres("miss", [b.Miss.Along, b.Miss.Across, b.Miss.OutOfPlan], 3) ?? BodyChecks.Sure(b.Expected) ?? BodyChecks.Metre("limit", b.Limit);

    protected override Situation Apply(Situation situation, RecheckBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        situation = Proven(situation, body);
        var counts = body.Passed == false && body.Fixture is { } fixture && situation.Find(fixture) is { } state
            && body.Revision == state.InForce?.Number && (body.Refuses || state.Missed is not { Refuses: true });
        return counts
            ? situation.With(situation.Find(body.Fixture!)! with { Missed = new(body, body.Refuses, unit => Said(body, unit), body.Length) })
            : situation;
    }

    protected override bool Stands(RecheckBody body, Situation situation, NewestEntries newest) =>
        body.Fixture is { } fixture && situation.Find(fixture) is { } state && (body.Serial == state.Missed?.Serial || state.Progress.RestsOn(body.Serial)
            || (body.Version > 1 && body.Serial == state.Progress.Since));

    /// <summary>A recheck that passed goes towards the proof; after a miss everything begins again. Those of version 1 did neither.</summary>
    private static Situation Proven(Situation situation, RecheckBody body)
    {
        if (body.Version == 1 || body.Passed is not { } passed || body.Fixture is not { } fixture
            || situation.Find(fixture) is not { InForce: { } revision } state
            || body.Revision != revision.Number)
        {
            return situation;
        }

        var progress = passed
            ? state.Progress with
            {
                Passed = [.. Proof.Needed(revision, [.. state.Progress.Passed, new PassedRecheck(body.Serial, body.Master, body.Nest[0], body.Nest[1])])
                    .Distinct()],
            }
            : new() { Since = body.Serial };
        return situation.With(state with { Progress = progress });
    }

    private static string Said(RecheckBody miss, LengthUnit unit)
    {
        var allowed = miss.Limit is { } limit ? $"limits.recheck is {unit.FixedText(limit)}"
            : miss.Expected is { } u ? $"U (k = 2) is {unit.FixedText(u.Along)} along and {unit.FixedText(u.Across)} across" : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"recheck {miss.Serial} found a master in nest {miss.Nest[0]},{miss.Nest[1]} of {miss.Fixture} {unit.FixedText(miss.Length)} "
            + $"from where revision {miss.Revision} predicts it ({unit.FixedText(miss.Miss.Along)} along, {unit.FixedText(miss.Miss.Across)} "
            + $"across); {allowed}");
    }
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RecheckBody))]
internal sealed partial class RecheckContext : JsonSerializerContext;
