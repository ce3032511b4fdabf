namespace Stockseat.Seating.Envelopes;

/// <summary>Finds the diameters around the taught one in which everything holds.</summary>
public static class EnvelopeSolver
{
    /// <summary>The most steps that are walked to find one end, which takes some tenths of a second. A usual envelope takes some thousands of steps.</summary>
    private const int MostSteps = 1_000_000;

    /// <summary>Finds both ends, to 1 µm.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="violated">The constraint that the taught diameter itself violates, when there is no envelope; its diameter is the taught one.</param>
    /// <returns>The envelope; null when the taught diameter itself is outside of it.</returns>
    public static Envelope? Solve(Plan plan, out EnvelopeEnd? violated)
    {
        var parts = new PlanParts(plan);
        violated = Violated(plan, parts, out var taught);
        return violated is null ? new(End(plan, parts, taught, greatest: false), End(plan, parts, taught, greatest: true)) : null;
    }

    private static EnvelopeEnd? Violated(Plan plan, PlanParts parts, out Stance taught)
    {
        taught = default;
        if (PlanLimits.Broken(plan, plan.TaughtDiameterMetres) is { } broken)
        {
            return new(plan.TaughtDiameterMetres, broken.Constraint, null, broken.Limit);
        }

        // Without a seat nobody knows where the stock in the other nests is.
        if (!Stance.TryTake(plan, plan.TaughtDiameterMetres, out taught) || !parts.NeighboursAreSeated)
        {
            return new(plan.TaughtDiameterMetres, Constraint.NoSeat, null, null);
        }

        EnvelopeEnd? worst = null;
        var least = double.PositiveInfinity;
        foreach (var reading in parts.AlongW())
        {
            Judge(reading, parts.WantedMetres, Pair.Holds(reading.Metres, parts.WantedMetres));
        }

        // In a grid that is far too dense the nearest nests already overlap, and the others need no look.
        foreach (var pair in parts.Own().Concat(parts.Next().SelectMany(parts.With)))
        {
            var reading = pair.Read(taught);
            Judge(reading, pair.WantedMetres, pair.Holds(reading.Metres));
        }

        if (parts.Looks(taught, taught) > PlanParts.Most)
        {
            return worst ?? new(plan.TaughtDiameterMetres, Constraint.Reach, null, null);
        }

        foreach (var pair in Near(parts, taught, taught))
        {
            var reading = pair.Read(taught);
            Judge(reading, pair.WantedMetres, pair.Holds(reading.Metres));
        }

        return worst;

        void Judge(GapReading reading, double wanted, bool holds)
        {
            if (!holds && reading.Metres - wanted < least)
            {
                least = reading.Metres - wanted;
                worst = new(plan.TaughtDiameterMetres, Constraint.Gap, reading, wanted);
            }
        }
    }

    private static EnvelopeEnd End(Plan plan, PlanParts parts, Stance taught, bool greatest)
    {
        var steps = MostSteps;
        var end = PlanLimits.Last(plan, greatest);
        foreach (var pair in parts.Own())
        {
            Shorten(pair);
        }

        foreach (var pair in parts.Next().SelectMany(parts.With))
        {
            Shorten(pair);
        }

        if (!Stance.TryTake(plan, end.DiameterMetres, out var furthest) || parts.Looks(taught, furthest) > PlanParts.Most)
        {
            return new(plan.TaughtDiameterMetres, Constraint.Reach, null, null);
        }

        foreach (var theirs in parts.Others(taught, furthest))
        {
            Stance.TryTake(plan, end.DiameterMetres, out var last);
            if (!parts.IsNear(theirs, taught, last))
            {
                continue;
            }

            foreach (var pair in parts.With(theirs))
            {
                Shorten(pair);
            }
        }

        return end;

        void Shorten(in Pair pair)
        {
            if (Stance.TryTake(plan, end.DiameterMetres, out var last) && GapWalk.Last(plan, pair, taught, last, ref steps) is { } shorter)
            {
                end = shorter;
            }
        }
    }

    private static IEnumerable<Pair> Near(PlanParts parts, Stance from, Stance to) =>
        parts.Others(from, to).Where(theirs => parts.IsNear(theirs, from, to)).SelectMany(parts.With);
}
