using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Roll;

/// <summary>A ledger ends, or begins with what the one before it held.</summary>
internal sealed class RolledOverKind : EntryKind<RolledOverBody>
{
    public override string Name => Kinds.RolledOver;

    protected override JsonTypeInfo<RolledOverBody> Json => RolledOverContext.Default.RolledOverBody;

    public override int Longest => LongestCarrying;

    protected override string? Fault(RolledOverBody b, VerbTable table) => CarriedBody.Fault(b.Carried ?? [], table);

    /// <summary>What the entries that the old ledger left behind say, each applied as if it stood here.</summary>
    protected override Situation Apply(Situation situation, RolledOverBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.IsEnd ? situation
        : body.ReadCarried(table).Aggregate(Situation.Empty, (held, carried) => table.Apply(held, carried, read)).BeginningWith(body.Serial);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RolledOverBody))]
internal sealed partial class RolledOverContext : JsonSerializerContext;
