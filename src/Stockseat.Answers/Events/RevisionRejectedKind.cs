using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Events;

/// <summary>Rejected files: the newest one of a fixture is not recorded again.</summary>
internal sealed class RevisionRejectedKind : EntryKind<RevisionRejectedBody>
{
    public override string Name => Kinds.RevisionRejected;

    protected override JsonTypeInfo<RevisionRejectedBody> Json => RevisionRejectedContext.Default.RevisionRejectedBody;

    protected override string? Fault(RevisionRejectedBody b, VerbTable table) => BodyChecks.Texts("faults", b.Faults);

    protected override Situation Apply(Situation situation, RevisionRejectedBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.Fixture is { } fixture ? situation.With(situation.FindOrNew(fixture) with { Rejected = body.File }) : situation;

    protected override IReadOnlyList<string> NewestOf(RevisionRejectedBody body, VerbTable table) => [NewestEntries.Rejected];
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RevisionRejectedBody))]
internal sealed partial class RevisionRejectedContext : JsonSerializerContext;
