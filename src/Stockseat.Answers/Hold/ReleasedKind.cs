using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Hold;

/// <summary>Releases.</summary>
internal sealed class ReleasedKind : EntryKind<ReleasedBody>
{
    public override string Name => Kinds.Released;

    protected override JsonTypeInfo<ReleasedBody> Json => ReleasedContext.Default.ReleasedBody;

    protected override Situation Apply(Situation situation, ReleasedBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        if (body.Fixture is not { } fixture)
        {
            return situation;
        }

        var state = situation.FindOrNew(fixture);
        return situation.With(state with { Holds = state.Holds.Remove(body.Of) });
    }

    /// <summary>The newest hold is carried even if it has been released since: then its release is carried too.</summary>
    protected override bool Stands(ReleasedBody body, Situation situation, NewestEntries newest) =>
        newest.Find(NewestEntries.Held, body.Fixture) is HeldBody held && body.Serial > held.Serial && body.Of == held.By;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(ReleasedBody))]
internal sealed partial class ReleasedContext : JsonSerializerContext;
