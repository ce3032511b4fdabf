using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>What a setter should know about a revision before it is adopted: no faults, but things that may surprise.</summary>
public static class RevisionAdvice
{
    private static readonly (double Factor, string Slip)[] Slips =
        [(0.5, "a radius taken for a diameter"), (0.1, "a diameter with its point one place too far left"), (1 / 25.4, "an inch value taken for millimetres")];

    /// <summary>All advice about a revision.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="diameterMetres">The diameter at which the uncertainty is judged, in metres.</param>
    /// <param name="from">How the diameter is measured; null: it is stated.</param>
    /// <param name="unit">The unit of the lengths in the texts.</param>
    public static IEnumerable<Finding> Of(Revision revision, double diameterMetres, DiameterFrom? from, LengthUnit unit) =>
        [.. FittingSlips(revision, unit), .. Sure(revision, diameterMetres, from, unit), .. Incomplete(revision)];

    /// <summary>Slips that the envelope does not catch: a diameter within the envelope would stay within it when it is misread in this way.</summary>
    private static IEnumerable<Finding> FittingSlips(Revision revision, LengthUnit unit)
    {
        if (revision.Envelopes().Pick is not { Least.DiameterMetres: var least, Greatest.DiameterMetres: var greatest })
        {
            yield break;
        }

        foreach (var (factor, slip) in Slips.Where(s => least <= greatest * s.Factor))
        {
            yield return Finding.Advice("limits.diameter", $"{slip} would not be noticed: stock of {unit.Short(least / factor)} to "
                + $"{unit.Text(greatest)} would be taken for {unit.Short(least)} to {unit.Text(greatest * factor)}. "
                + $"Name the lot at each push, or narrow limits.diameter");
        }
    }

    private static IEnumerable<Finding> Sure(Revision revision, double diameter, DiameterFrom? from, LengthUnit unit)
    {
        var limit = revision.Limits.UncertaintyMetres;
        if (revision.Uncertainty is null)
        {
            yield return Finding.Advice("uncertainty", limit is null
                ? "no uncertainty is stated, so answers can't say how uncertain they are. State it"
                : $"limits.uncertainty is {unit.Text(limit.Value)}, but no uncertainty is stated: every ask will be refused. State it");
            yield break;
        }

        if (Certainty.Diameter(revision, from) is null)
        {
            yield return Finding.Advice("uncertainty.askedDiameter", $"for a diameter that was not measured by a gauge with LimitsOfError, the "
                + $"uncertainty of the answer is not known{(limit is null ? "" : ", and such asks will be refused")}. State uncertainty.askedDiameter, or "
                + $"measure with such a gauge");
            yield break;
        }

        var budgets = NestBudget.Of(revision, diameter, revision.StandOffPickMetres, from, 0, 0);
        if (budgets.Count > 0 && budgets.Max(b => b.Budget.Expanded.Larger) is var largest && largest > limit)
        {
            yield return Finding.Advice("limits.uncertainty", $"U (k = 2) is {unit.Text(largest)} at {unit.Text(diameter)}, "
                + $"above limits.uncertainty {unit.Text(limit.Value)}: such asks will be refused. The budget shows its components");
        }
    }

    private static IEnumerable<Finding> Incomplete(Revision revision)
    {
        if (revision is { Limits.RecheckMetres: null, Uncertainty: null })
        {
            yield return Finding.Advice("limits.recheck", "no limits.recheck is stated, and no uncertainty, so a recheck of this revision is told but not "
                + "judged, and nothing can prove it. State limits.recheck");
        }

        if (revision.Uncertainty is { Lean: not null, LeanHeightMetres: null })
        {
            yield return Finding.Advice("uncertainty.leanHeight", "uncertainty.lean is stated without leanHeight, the height over which it acts, so it "
                + "contributes nothing. State leanHeight, the height of the grip above the contacts");
        }

        if (revision.Layout.Columns * revision.Layout.Rows > 1 && (Endless(revision.Nest.First) || Endless(revision.Nest.Second)))
        {
            yield return Finding.Advice("nest", "the ends of a face are not stated, so gaps to the faces of other nests are not judged. State where the "
                + "face begins and ends");
        }

        if (revision.Limits.DiameterMetres is null)
        {
            yield return Finding.Advice("limits.diameter", "limits.diameter is not stated: any diameter that finds a seat is answered. State the smallest "
                + "and the largest");
        }
    }

    private static bool Endless(in Locator locator) =>
        locator.Kind == LocatorKind.Face && (double.IsInfinity(locator.FromMetres) || double.IsInfinity(locator.ToMetres));
}
