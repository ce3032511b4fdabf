using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Notes;

/// <summary>Notes: they change nothing.</summary>
internal sealed class NoteKind : EntryKind<NoteBody>
{
    public override string Name => Kinds.Note;

    public override bool MayStand => false;

    protected override JsonTypeInfo<NoteBody> Json => NoteContext.Default.NoteBody;

    protected override string? Fault(NoteBody b, VerbTable table) => BodyChecks.Missing("text", b.Text) ?? BodyChecks.Missing("by", b.By)
        ?? (b.Instant is null || EntryTime.TryParse(b.Instant, out _) ? null : "instant is not an instant");
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(NoteBody))]
internal sealed partial class NoteContext : JsonSerializerContext;
