using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Measured;

/// <summary>A push that was refused and still voids the measurement: an old diameter must not stand in for one that was just refused.</summary>
public static class VoidingPush
{
    /// <summary>
    /// Whether an entry is such a push. A client that may not push can't void a measurement, an unknown fixture has no measurement, and readings that came
    /// before those of the measurement are no evidence against it.
    /// </summary>
    /// <param name="body">The entry.</param>
    public static bool Is(EntryBody body) =>
        body is RefusalBody { Asked: MeasureAsk.VerbName, Number: not ((int)Reason.NotPermitted or (int)Reason.FixtureUnknown) }
            and not { Number: (int)Reason.MeasurementStale, Measurement: not null };
}
