using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Adoption;

/// <summary>
/// What is wrong with a revision that reads well: stock of its own taught diameter does not fit, or it states diameters that it can't hold. Told when it is
/// checked and when somebody wants to adopt it. One that is in force stays so: then the narrower range counts.
/// </summary>
public static class EnvelopeFaults
{
    /// <summary>The ends of an envelope are known to 1 µm.</summary>
    private const double Rounding = 2e-6;

    /// <summary>The faults, a sentence each.</summary>
    /// <param name="revision">The revision; prepared.</param>
    /// <param name="unit">The unit of their lengths.</param>
    public static IEnumerable<string> Of(Revision revision, LengthUnit unit)
    {
        var envelopes = revision.Prepared.Envelopes;
        if (envelopes.Violated is { } violated)
        {
            yield return $"its own taught diameter of {unit.Text(revision.TaughtDiameterMetres)} does not "
                + $"fit{(envelopes.Pick is null ? "" : " to be set down among raw stock")}: "
                + $"{Binding.Said(violated, revision.Around.Obstacles, unit)}; mend the nest, the gripper or the limits";
        }

        if (envelopes.Held is not { } held || revision.Limits.DiameterMetres is not { } stated)
        {
            yield break;
        }

        if (stated.From < held.Least.DiameterMetres - Rounding)
        {
            yield return $"limits.diameter begins at {unit.Text(stated.From)}, and {unit.Text(held.Least.DiameterMetres)} is the "
                + $"smallest that it holds: {Binding.Said(held.Least, revision.Around.Obstacles, unit)}; state a range within";
        }

        if (stated.To > held.Greatest.DiameterMetres + Rounding)
        {
            yield return $"limits.diameter ends at {unit.Text(stated.To)}, and {unit.Text(held.Greatest.DiameterMetres)} is the "
                + $"largest that it holds: {Binding.Said(held.Greatest, revision.Around.Obstacles, unit)}; state a range within";
        }
    }
}
