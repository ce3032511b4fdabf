using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Asking;

/// <summary>Refusals of all verbs; the verb says what a refusal changes.</summary>
internal sealed class RefusalKind : EntryKind<RefusalBody>
{
    public override string Name => Kinds.Refusal;

    protected override JsonTypeInfo<RefusalBody> Json => RefusalContext.Default.RefusalBody;

    protected override string? Fault(RefusalBody b, VerbTable table) =>
        (b.Nest is { } nest ? BodyChecks.Count("nest", nest.Length, 2) : null) ?? BodyChecks.Metre("diameter", b.Diameter) ?? BodyChecks.Readings(b.Readings)
        ?? BodyChecks.From(b.From) ?? BodyChecks.Sure(b.Uncertainty) ?? BodyChecks.Metre("agreement", b.Agreement) ?? BodyChecks.Terms(b.LotTerms)
        ?? BodyChecks.Metre("nominal", b.Nominal) ?? BodyChecks.Metre("within", b.Within) ?? BodyChecks.Metre("masterWithin", b.MasterWithin)
        ?? (b.Found is { } found ? BodyChecks.Metres("found", found, 3) : null)
        ?? BodyChecks.Texts("limits", b.Limits?.Values) ?? BodyChecks.Texts("readBack", b.ReadBack?.Values) ?? BodyChecks.Texts("sent", b.Sent)
        ?? (b.Number == (int)Reason.ReadingsDisagree && b.Readings is null ? "readings are missing" : null);

    protected override Situation Apply(Situation situation, RefusalBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        table.Find(body.Asked)?.ApplyRefusal(situation, body) ?? situation;

    protected override IReadOnlyList<string> NewestOf(RefusalBody body, VerbTable table) => table.Find(body.Asked)?.RefusalNewestOf(body) ?? [];
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RefusalBody))]
internal sealed partial class RefusalContext : JsonSerializerContext;
