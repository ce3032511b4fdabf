using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Measured;

/// <summary>A push that was refused and voids the measurement all the same: an old diameter must not stand in for one that was just refused.</summary>
public static class VoidingPush
{
    /// <summary>
    /// Whether an entry is one. Who may not push can't void a measurement, an unknown fixture has none, and readings that came before those of the
    /// measurement say nothing against it.
    /// </summary>
    /// <param name="body">The entry.</param>
    public static bool Is(EntryBody body) =>
        body is RefusalBody { Asked: MeasureAsk.VerbName, Number: not ((int)Reason.NotPermitted or (int)Reason.FixtureUnknown) }
            and not { Number: (int)Reason.MeasurementStale, Measurement: not null };
}
