using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Done;

/// <summary>Answers that were carried out: the newest for each purpose and nest counts.</summary>
internal sealed class DoneKind : EntryKind<DoneBody>
{
    public override string Name => Kinds.Done;

    protected override JsonTypeInfo<DoneBody> Json => DoneContext.Default.DoneBody;

    protected override string? Fault(DoneBody b, VerbTable table) => BodyChecks.Missing("fixture", b.Fixture) ?? BodyChecks.OfPurpose(b.Purpose)
        ?? BodyChecks.Nest(b.Nest) ?? BodyChecks.Metres("shiftBase", b.ShiftBase, 3);

    protected override Situation Apply(Situation situation, DoneBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        // Said again, it changes nothing: another answer may have been carried out since, and that one was the last.
        if (body.Confirmation is null || body.Fixture is not { } fixture || situation.Find(fixture) is not { } state)
        {
            return situation;
        }

        var shift = new DoneShift(body.Serial, body.ShiftBase[0], body.ShiftBase[1], body.ShiftBase[2]);
        var purpose = PurposeOf(body);
        return situation.With(state with
        {
            Progress = state.Progress.WithDone(body.Answer, purpose, body.Nest[0], body.Nest[1], shift),
            Load = state.Load is { } load && load.Serial == body.Load
                ? load.WithDone(body.Answer, purpose, body.Nest[0], body.Nest[1], body.Serial) : state.Load,
        });
    }

    /// <summary>Also while its confirmation stands as the newest one: alone, that would let the same answer be carried out once more.</summary>
    protected override bool Stands(DoneBody body, Situation situation, NewestEntries newest) =>
        body.Fixture is { } fixture && situation.Find(fixture) is { } state && (state.Progress.RestsOn(body.Serial)
            || (state.Load is { } load && load.Serial == body.Load && load.RestsOn(PurposeOf(body), body.Nest[0], body.Nest[1], body.Serial))
            || (body.Confirmation is { } by && (by == state.ConfirmedPick?.Serial || by == state.ConfirmedPlace?.Serial)));

    private static Purpose PurposeOf(DoneBody body) => PurposeNames.Find(body.Purpose) ?? Purpose.Pick;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(DoneBody))]
internal sealed partial class DoneContext : JsonSerializerContext;
