using System.Collections.Immutable;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Loading;

/// <summary>Loads: the newest of a fixture counts until its nests are emptied.</summary>
internal sealed class LoadedKind : EntryKind<LoadedBody>
{
    public override string Name => Kinds.Loaded;

    protected override JsonTypeInfo<LoadedBody> Json => LoadedContext.Default.LoadedBody;

    protected override string? Fault(LoadedBody b, VerbTable table) =>
        BodyChecks.Missing("fixture", b.Fixture) ?? BodyChecks.Terms(b.LotTerms)
        ?? (b is { Columns: > 0 and <= 1_000_000, Rows: > 0 and <= 1_000_000 } && (long)b.Columns * b.Rows <= LoadedVerb.MostNests ? null
            : "columns and rows are not those of a layout")
        ?? (b.Nests?.Any(n => n is not [>= 0, >= 0] || n[0] >= b.Columns || n[1] >= b.Rows) == true ? "a nest is not one of the layout" : null)
        ?? (b.First is < 0 || b.First > b.Columns * b.Rows ? "first is not a number of nests of the layout" : null);

    /// <summary>The nests were refilled: the lot of the last pick is not in them any more.</summary>
    protected override Situation Apply(Situation situation, LoadedBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        var state = situation.FindOrNew(body.Fixture!);
        return situation.With(state with
        {
            Load = new(body.Serial, body.Lot) { Raw = [.. body.Full], Count = body.Count },
            Served = state.Served with { LotSerial = 0, Lot = null },
        });
    }

    protected override bool Stands(LoadedBody body, Situation situation, NewestEntries newest) => situation.Find(body.Fixture!)?.Load?.Serial == body.Serial;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(LoadedBody))]
internal sealed partial class LoadedContext : JsonSerializerContext;
