using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>Answers: they change nothing.</summary>
internal sealed class AnswerKind : EntryKind<AnswerBody>
{
    public override string Name => Kinds.Answer;

    public override bool MayStand => false;

    protected override JsonTypeInfo<AnswerBody> Json => AnswerContext.Default.AnswerBody;

    protected override string? Fault(AnswerBody b, VerbTable table) =>
        BodyChecks.Missing("fixture", b.Fixture) ?? BodyChecks.Digest(b.Digest) ?? BodyChecks.OfPurpose(b.Purpose) ?? BodyChecks.Nest(b.Nest)
        ?? BodyChecks.Size("diameter", b.Diameter) ?? BodyChecks.Seconds("age", b.Age) ?? BodyChecks.From(b.From) ?? BodyChecks.Terms(b.LotTerms)
        ?? BodyChecks.Metre("nominal", b.Nominal) ?? BodyChecks.Metre("within", b.Within) ?? BodyChecks.Metre("standOff", b.StandOff)
        ?? BodyChecks.Metres("position", b.Position, 3) ?? BodyChecks.Metres("orientation", b.Orientation, 4)
        ?? BodyChecks.Metres("shiftBase", b.ShiftBase, 3) ?? BodyChecks.Metres("shiftOrigin", b.ShiftOrigin, 3)
        ?? BodyChecks.Sure(b.Uncertainty) ?? BodyChecks.Served(b.Unit, b.Decimals);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(AnswerBody))]
internal sealed partial class AnswerContext : JsonSerializerContext;
