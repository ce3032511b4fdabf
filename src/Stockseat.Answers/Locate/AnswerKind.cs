using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Locate;

/// <summary>Answers: the newest of each purpose counts. Those of version 1 change nothing.</summary>
internal sealed class AnswerKind : EntryKind<AnswerBody>
{
    public override string Name => Kinds.Answer;

    protected override JsonTypeInfo<AnswerBody> Json => AnswerContext.Default.AnswerBody;

    /// <summary>What no answer and no trial of the service holds, in words; null when all of it may be.</summary>
    internal static string? FaultOf(ServedBody b) =>
        BodyChecks.Missing("fixture", b.Fixture) ?? BodyChecks.Digest(b.Digest) ?? BodyChecks.OfPurpose(b.Purpose) ?? BodyChecks.Nest(b.Nest)
        ?? BodyChecks.Size("diameter", b.Diameter) ?? BodyChecks.Metre("length", b.Length) ?? BodyChecks.Seconds("age", b.Age) ?? BodyChecks.From(b.From)
            ?? BodyChecks.Terms(b.LotTerms)
        ?? BodyChecks.Metre("nominal", b.Nominal) ?? BodyChecks.Metre("within", b.Within) ?? BodyChecks.Metre("standOff", b.StandOff)
        ?? BodyChecks.Metres("position", b.Position, 3) ?? BodyChecks.Metres("orientation", b.Orientation, 4)
        ?? BodyChecks.Metres("shiftBase", b.ShiftBase, 3) ?? BodyChecks.Metres("shiftOrigin", b.ShiftOrigin, 3)
        ?? BodyChecks.Sure(b.Uncertainty) ?? BodyChecks.Served(b.Unit, b.Decimals);

    protected override string? Fault(AnswerBody b, VerbTable table) => FaultOf(b);

    protected override Situation Apply(Situation situation, AnswerBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        if (body.Version == 1 || body.Fixture is not { } fixture || situation.Find(fixture) is not { } state)
        {
            return situation;
        }

        var served = body.Purpose == "place" ? state.Served with { Place = body.Serial }
            : body.Lot is null ? state.Served with { Pick = body.Serial }
            : state.Served with { Pick = body.Serial, LotSerial = body.Serial, Lot = body.Lot };
        var load = state.Load is { } standing && standing.Serial == body.Load
            ? standing with { Open = UnfinishedMove.Of(body) } : state.Load;
        return situation.With(state with { Served = served, Load = load });
    }

    protected override bool Stands(AnswerBody body, Situation situation, NewestEntries newest) =>
        body.Version > 1 && body.Fixture is { } fixture && situation.Find(fixture) is { Served: { } served } state
            && (served.Pick == body.Serial || served.Place == body.Serial || served.LotSerial == body.Serial || state.Load?.Open?.Answer == body.Serial);
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(AnswerBody))]
internal sealed partial class AnswerContext : JsonSerializerContext;
