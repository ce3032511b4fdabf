using Stockseat.Fixtures.Revisions;

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
    public static IEnumerable<string> Of(Revision revision)
    {
        var envelopes = revision.Prepared.Envelopes;
        if (envelopes.Violated is { } violated)
        {
            yield return $"its own taught diameter of {Wording.Millimetres(revision.TaughtDiameterMetres)} mm does not "
                + $"fit{(envelopes.Pick is null ? "" : " to be set down among raw stock")}: {Binding.Said(violated, revision.Around.Obstacles)}; mend the "
                + "nest, the gripper or the limits";
        }

        if (envelopes.Held is not { } held || revision.Limits.DiameterMetres is not { } stated)
        {
            yield break;
        }

        if (stated.From < held.Least.DiameterMetres - Rounding)
        {
            yield return $"limits.diameter begins at {Wording.Millimetres(stated.From)} mm, and {Wording.Millimetres(held.Least.DiameterMetres)} mm is the "
                + $"smallest that it holds: {Binding.Said(held.Least, revision.Around.Obstacles)}; state a range within";
        }

        if (stated.To > held.Greatest.DiameterMetres + Rounding)
        {
            yield return $"limits.diameter ends at {Wording.Millimetres(stated.To)} mm, and {Wording.Millimetres(held.Greatest.DiameterMetres)} mm is the "
                + $"largest that it holds: {Binding.Said(held.Greatest, revision.Around.Obstacles)}; state a range within";
        }
    }
}
