using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Confirm;

/// <summary>Confirmations: for each purpose the shift that was confirmed last for the revision in force.</summary>
internal sealed class ConfirmationKind : EntryKind<ConfirmationBody>
{
    public override string Name => Kinds.Confirmation;

    protected override JsonTypeInfo<ConfirmationBody> Json => ConfirmationContext.Default.ConfirmationBody;

    protected override string? Fault(ConfirmationBody b, VerbTable table) =>
        BodyChecks.OfPurpose(b.Purpose) ?? BodyChecks.Metres("shiftBase", b.ShiftBase, 3) ?? BodyChecks.Texts("readBack", b.ReadBack?.Values);

    protected override Situation Apply(Situation situation, ConfirmationBody body, VerbTable table, Func<IAdoption, Revision?> read)
    {
        if (body.Fixture is not { } fixture || situation.Find(fixture) is not { } state || body.Confirms <= state.AdoptedBy)
        {
            return situation;
        }

        var shift = new ConfirmedShift(body.Serial, body.ShiftBase[0], body.ShiftBase[1], body.ShiftBase[2]);
        state = state with { Progress = Next(state.Progress, body) };
        return situation.With(body.Purpose == "place" ? state with { ConfirmedPlace = shift } : state with { ConfirmedPick = shift });
    }

    protected override bool Stands(ConfirmationBody body, Situation situation, NewestEntries newest) =>
        body.Fixture is { } fixture && situation.Find(fixture) is { } state
            && (body.Serial == state.ConfirmedPick?.Serial || body.Serial == state.ConfirmedPlace?.Serial
                || (body.Version > 1 && state.Progress.RestsOn(body.Serial)));

    private static Progress Next(Progress progress, ConfirmationBody body) =>
        body.Version == 1 ? progress.WithConfirmed(
            body.Confirms, PurposeNames.Find(body.Purpose) ?? Purpose.Pick, new(body.Serial, body.ShiftBase[0], body.ShiftBase[1], body.ShiftBase[2]))
        : body.Numbers == ConfirmationBody.Full ? progress.WithReceived(body.Confirms, body.Serial)
        : progress;
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(ConfirmationBody))]
internal sealed partial class ConfirmationContext : JsonSerializerContext;
