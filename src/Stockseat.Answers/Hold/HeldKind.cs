using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Hold;

/// <summary>Holds. The newest one makes older readings useless, even if it has been released since.</summary>
internal sealed class HeldKind : EntryKind<HeldBody>
{
    public override string Name => Kinds.Held;

    protected override JsonTypeInfo<HeldBody> Json => HeldContext.Default.HeldBody;

    /// <summary>The first hold of a name counts: a repeated one keeps the time at which the first one began.</summary>
    protected override Situation Apply(Situation situation, HeldBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        if (body.Fixture is not { } fixture)
        {
            return situation;
        }

        var state = situation.FindOrNew(fixture);
        return situation.With(state with
        {
            Cleared = body.Serial,
            Holds = state.Holds.ContainsKey(body.By)
                ? state.Holds
                : state.Holds.Add(body.By, new(body.By, body.Why, body.Serial, EntryTime.Parse(body.At))),
        });
    }

    protected override bool Stands(HeldBody body, Situation situation, NewestEntries newest) =>
        body.Fixture is { } fixture && situation.Find(fixture)?.Holds.TryGetValue(body.By, out var hold) == true && hold.Serial == body.Serial;

    protected override IReadOnlyList<string> NewestOf(HeldBody body, VerbTable table) => [NewestEntries.Held];
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(HeldBody))]
internal sealed partial class HeldContext : JsonSerializerContext;
