namespace Stockseat.Seating.Envelopes;

/// <summary>
/// Walks outward from the taught diameter, in steps within which a gap cannot fall below the wanted one: so no dip is stepped over, however narrow it is. A
/// step is what the gap has to spare, divided by its rate at the lower end of the step. On the way down the lower end is not known beforehand, so the step is
/// halved until what moves within it is no more than the gap has to spare.
/// </summary>
internal static class GapWalk
{
    /// <summary>
    /// The least step, in metres of diameter. A dip that is narrower may be missed; how deep it can be follows from the rate, and is far below 1 µm.
    /// </summary>
    private const double FloorMetres = 1e-7;

    /// <summary>The last diameter at which a pair's gap holds.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="pair">The pair.</param>
    /// <param name="start">A diameter at which the gap holds.</param>
    /// <param name="end">How far to walk, up or down; there is a seat up to there.</param>
    /// <param name="steps">How many steps are left. A gap that is exactly the wanted one all the way, such as that between a bar and a jaw that moves along it,
    /// is walked in least steps.</param>
    /// <returns>Null when it holds all the way.</returns>
    public static EnvelopeEnd? Last(Plan plan, in Pair pair, in Stance start, in Stance end, ref int steps)
    {
        var here = start;
        pair.Gap(here, out var room);
        while (pair.Moved(here, end) > room && here.DiameterMetres != end.DiameterMetres)
        {
            if (--steps < 0)
            {
                return new(here.DiameterMetres, Constraint.Reach, null, null);
            }

            var next = Next(plan, pair, here, end, room);
            var gap = pair.Gap(next, out room);
            if (!pair.Holds(gap))
            {
                return new(here.DiameterMetres, Constraint.Gap, new(pair.Mine.Party, pair.Theirs.Party, pair.Mine.Jaws, gap), pair.WantedMetres);
            }

            here = next;
        }

        return null;
    }

    /// <summary>The next diameter. It stays before the end unless it is a least step away: the gap does not allow the whole way there.</summary>
    private static Stance Next(Plan plan, in Pair pair, in Stance here, in Stance end, double room)
    {
        var left = end.DiameterMetres - here.DiameterMetres;
        if (Math.Abs(left) <= FloorMetres)
        {
            return end;
        }

        var step = Math.Clamp(room / pair.Rate(here.Sensitivity), FloorMetres, Math.Max(Math.Abs(left) / 2, FloorMetres));
        while (true)
        {
            Stance.TryTake(plan, here.DiameterMetres + Math.CopySign(step, left), out var next);
            if (step <= FloorMetres || pair.Moved(here, next) <= room)
            {
                return next;
            }

            step = Math.Max(step / 2, FloorMetres);
        }
    }
}
