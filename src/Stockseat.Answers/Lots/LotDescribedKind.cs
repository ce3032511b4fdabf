using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Lots;

/// <summary>Descriptions of lots: the newest one of a name counts.</summary>
internal sealed class LotDescribedKind : EntryKind<LotDescribedBody>
{
    public override string Name => Kinds.LotDescribed;

    protected override JsonTypeInfo<LotDescribedBody> Json => LotDescribedContext.Default.LotDescribedBody;

    protected override string? Fault(LotDescribedBody b, VerbTable table) => BodyChecks.Terms(b.LotTerms) ?? BodyChecks.Terms(b.Before);

    protected override Situation Apply(Situation situation, LotDescribedBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        situation.With(body.Lot, new DescribedLot(body.LotTerms, body.Serial));

    protected override bool Stands(LotDescribedBody body, Situation situation, NewestEntries newest) =>
        situation.Lots.GetValueOrDefault(body.Lot)?.Serial == body.Serial;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(LotDescribedBody))]
internal sealed partial class LotDescribedContext : JsonSerializerContext;
