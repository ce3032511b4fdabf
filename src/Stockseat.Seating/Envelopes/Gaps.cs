namespace Stockseat.Seating.Envelopes;

/// <summary>How far apart all things are that may meet.</summary>
public static class Gaps
{
    /// <summary>
    /// All gaps at a diameter, the smallest first; of a hundred thousand nests only the gaps that matter. Empty when the stock finds no seat, or no place that
    /// clears the locators by the stand-off.
    /// </summary>
    /// <param name="plan">The plan.</param>
    /// <param name="diameterMetres">The stock's diameter, in metres.</param>
    public static IReadOnlyList<GapReading> At(Plan plan, double diameterMetres)
    {
        if (!Stance.TryTake(plan, diameterMetres, out var stance))
        {
            return [];
        }

        var parts = new PlanParts(plan);
        return
        [
            .. parts.AlongW()
                .Concat(parts.Own().Concat(parts.Others(stance).SelectMany(parts.With)).Select(pair => pair.Read(stance)))
                .OrderBy(reading => reading.Metres),
        ];
    }
}
