using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Adoption;

/// <summary>
/// What is wrong with a revision whose file is sound: stock of its own taught diameter does not fit, or its stated range has diameters that it can't hold.
/// Reported when the revision is checked and when somebody wants to adopt it. A revision that is in force stays in force: then the narrower range counts.
/// </summary>
public static class EnvelopeFaults
{
    /// <summary>The ends of an envelope are known to 1 µm.</summary>
    private const double Rounding = 2e-6;

    /// <summary>The faults, one sentence each.</summary>
    /// <param name="revision">The revision; prepared.</param>
    /// <param name="unit">The unit of their lengths.</param>
    public static IEnumerable<string> Of(Revision revision, LengthUnit unit)
    {
        var envelopes = revision.Prepared.Envelopes;
        if (envelopes.Violated is { } violated)
        {
            yield return $"its own taught diameter of {unit.Text(revision.TaughtDiameterMetres)} does not "
                + $"fit{(envelopes.Pick is null ? "" : " to be set down among raw stock")}: "
                + $"{Binding.Said(violated, revision.Around.Obstacles, unit)}; correct the nest, the gripper or the limits";
        }

        if (envelopes.Held is not { } held || revision.Limits.DiameterMetres is not { } stated)
        {
            yield break;
        }

        if (stated.From < held.Least.DiameterMetres - Rounding)
        {
            yield return $"limits.diameter begins at {unit.Text(stated.From)}, but {unit.Text(held.Least.DiameterMetres)} is the "
                + $"smallest that the fixture holds: {Binding.Said(held.Least, revision.Around.Obstacles, unit)}; state a range that begins there or above";
        }

        if (stated.To > held.Greatest.DiameterMetres + Rounding)
        {
            yield return $"limits.diameter ends at {unit.Text(stated.To)}, but {unit.Text(held.Greatest.DiameterMetres)} is the "
                + $"largest that the fixture holds: {Binding.Said(held.Greatest, revision.Around.Obstacles, unit)}; state a range that ends there or below";
        }
    }
}
