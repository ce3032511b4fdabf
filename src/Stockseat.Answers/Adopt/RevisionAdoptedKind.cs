using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Adopt;

/// <summary>Adoptions.</summary>
internal sealed class RevisionAdoptedKind : EntryKind<RevisionAdoptedBody>
{
    public override string Name => Kinds.RevisionAdopted;

    protected override JsonTypeInfo<RevisionAdoptedBody> Json => RevisionAdoptedContext.Default.RevisionAdoptedBody;

    protected override string? Fault(RevisionAdoptedBody b, VerbTable table) => BodyChecks.Missing("fixture", b.Fixture) ?? BodyChecks.Digest(b.Digest)
        ?? (b.Content.ValueKind == JsonValueKind.Object ? null : "content is not an object");

    protected override Situation Apply(Situation situation, RevisionAdoptedBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        if (body.Fixture is not { } fixture)
        {
            return situation;
        }

        var state = situation.FindOrNew(fixture);
        var revision = read(body);
        var number = revision?.Number ?? body.Revision ?? 0;
        return situation.With(state with
        {
            InForce = revision,
            Unread = revision is null ? body.Serial : null,
            AdoptedBy = body.Serial,
            Adopted = state.Adopted.SetItem(number, body.Digest ?? ""),
            Adoptions = state.Adoptions.SetItem(number, body.Serial),
            Progress = new() { Since = body.Serial },
            ConfirmedPick = null,
            ConfirmedPlace = null,
            Missed = number == state.InForce?.Number ? state.Missed : null, // Adopted again, its file is as wrong as before.
            Cleared = body.Serial,
        });
    }

    /// <summary>Adoptions that are no longer in force count too: a number is never used for other values.</summary>
    protected override bool Stands(RevisionAdoptedBody body, Situation situation, NewestEntries newest) => true;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RevisionAdoptedBody))]
internal sealed partial class RevisionAdoptedContext : JsonSerializerContext;
