using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Explaining;

/// <summary>An entry computed again step by step, so that a person can follow it with a pocket calculator.</summary>
/// <param name="Serial">The entry.</param>
/// <param name="Sections">Its parts, from the inputs to what was served.</param>
public sealed record Working(long Serial, IReadOnlyList<WorkingSection> Sections)
{
    /// <summary>Computes an entry again, step by step.</summary>
    /// <param name="recorded">The entry: an answer or a refusal; of other kinds only the inputs are shown.</param>
    /// <param name="before">What was in force right before it, with the fixtures' folders as they must have been by the entry's outcome.</param>
    /// <param name="measurement">The measurement that it names, as recorded; null when it names none, or when it can't be found.</param>
    /// <param name="confirmed">The answer that it confirms, as recorded; null when it confirms none, or when it can't be found.</param>
    /// <param name="unit">The unit of the lengths in sentences; null: millimetres.</param>
    public static Working Of(EntryBody recorded, Situation before, MeasurementBody? measurement, AnswerBody? confirmed = null, LengthUnit? unit = null) =>
        new(recorded.Serial, [.. Make(recorded, before, measurement, confirmed, unit ?? LengthUnit.Millimetre)]);

    private static IEnumerable<WorkingSection> Make(
        EntryBody recorded, Situation before, MeasurementBody? measurement, AnswerBody? confirmed, LengthUnit unit) =>
        recorded switch
    {
        ServedBody b => LocateWorking.Of(b, before, measurement, unit),
        RefusalBody { Asked: "locate" or "trial" or "next" or "grid" } b => LocateWorking.Of(b, before, measurement, unit),
        RefusalBody { Asked: "measured" } b => MeasurementWorking.Of(b, before, unit),
        RefusalBody { Asked: "confirm" } b => ConfirmationWorking.Of(b, confirmed),
        RefusalBody b => OtherWorking.Of(b),
        MeasurementBody b => MeasurementWorking.Of(b, before, unit),
        RecheckBody b => RecheckWorking.Of(b, before),
        ConfirmationBody b => ConfirmationWorking.Of(b, confirmed),
        _ => [OtherWorking.Of(recorded)],
    };
}
