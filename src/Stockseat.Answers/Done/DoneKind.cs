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
        var fixture = body.Fixture is { } name ? situation.Find(name) : null;
        var load = fixture?.Load is { } standing && standing.Serial == body.Load ? standing : null;
        if (fixture is null || (body.Confirmation is null && load?.Open?.Answer != body.Answer))
        {
            return situation;
        }

        // What was never read back proves nothing of the numbers: it only settles what stands in the nest.
        var shift = new DoneShift(body.Serial, body.ShiftBase[0], body.ShiftBase[1], body.ShiftBase[2]);
        var purpose = PurposeOf(body);
        return situation.With(fixture with
        {
            Progress = body.Confirmation is null ? fixture.Progress
                : fixture.Progress.WithDone(body.Answer, purpose, body.Nest[0], body.Nest[1], shift),
            Load = load?.WithDone(body.Answer, purpose, body.Nest[0], body.Nest[1], body.Serial) ?? fixture.Load,
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
