using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Roll;

/// <summary>A ledger ends, or a ledger begins with everything that counted in the one before.</summary>
internal sealed class RolledOverKind : EntryKind<RolledOverBody>
{
    public override string Name => Kinds.RolledOver;

    protected override JsonTypeInfo<RolledOverBody> Json => RolledOverContext.Default.RolledOverBody;

    public override int Longest => LongestCarrying;

    protected override string? Fault(RolledOverBody b, VerbTable table) => CarriedBody.Fault(b.Carried ?? [], table);

    /// <summary>The situation by the carried entries, each applied as if it were in this ledger.</summary>
    protected override Situation Apply(Situation situation, RolledOverBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.IsEnd ? situation
        : body.ReadCarried(table).Aggregate(Situation.Empty, (held, carried) => table.Apply(held, carried, read)).BeginningWith(body.Serial);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RolledOverBody))]
internal sealed partial class RolledOverContext : JsonSerializerContext;
