using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Answers.Positions;

/// <summary>The components of the uncertainty of a nest's position.</summary>
/// <param name="Column">The nest's column.</param>
/// <param name="Row">The nest's row.</param>
/// <param name="Budget">The components that are stated.</param>
/// <param name="NotStated">The keys of the revision's uncertainty, or of the gauge, that are not stated: they contribute nothing.</param>
public sealed record NestBudget(int Column, int Row, Budget Budget, IReadOnlyList<string> NotStated)
{
    /// <summary>The budgets that an answer would have; none when U is not known or there is no seat.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="diameterMetres">The diameter, in metres.</param>
    /// <param name="standOffMetres">The stand-off, in metres.</param>
    /// <param name="from">How the diameter was measured; null when it was stated.</param>
    /// <param name="column">The nest's column.</param>
    /// <param name="row">The nest's row.</param>
    public static IReadOnlyList<NestBudget> Of(Revision revision, double diameterMetres, double standOffMetres, DiameterFrom? from, int column, int row)
    {
        if (Certainty.Diameter(revision, from) is not { } diameter || Fit.Place(revision, diameterMetres, standOffMetres) is not { } placed)
        {
            return [];
        }

        var model = Certainty.Model(revision, placed, diameter);
        var notStated = NotSaid(revision, diameter);
        NestBudget At(int c, int r) => new(c, r, Budget.Of(model, revision.Layout.OffsetPlan(c, r)), notStated);
        var own = At(column, row);
        if (column != 0 || row != 0)
        {
            return [own];
        }

        var (expanded, worst) = Certainty.Worst(revision.Layout, model);
        return expanded.Larger > own.Budget.Expanded.Larger ? [own, At(worst.Column, worst.Row)] : [own];
    }

    private static List<string> NotSaid(Revision revision, in DiameterInputs diameter)
    {
        var known = revision.Uncertainty!;
        var (pins, faces) = (Has(revision.Nest, LocatorKind.Pin), Has(revision.Nest, LocatorKind.Face));
        var gauged = diameter.Gauge is not null;
        (bool Missing, string Key)[] keys =
        [
            (gauged && diameter.Resolution is null, "gauge Resolution"),
            (gauged && diameter.Repeatability is null, "gauge Repeatability"),
            (known.TaughtDiameter is null, "taughtDiameter"),
            (known.Roundness is null, "roundness"),
            (pins && known.LocatorDiameter is null, "locatorDiameter"),
            (known.LocatorPosition is null, "locatorPosition"),
            (faces && known.LocatorAngle is null, "locatorAngle"),
            (known.Seating is null, "seating"),
            (known.Lean is null, "lean"),
            (known.Lean is not null && known.LeanHeightMetres is null, "leanHeight (so lean contributes nothing)"),
            (known.Teaching is null, "teaching"),
            (known.Frame is null, "frame"),
            (known.FrameAngle is null, "frameAngle"),
            (known.Robot is null, "robot"),
        ];
        return [.. keys.Where(k => k.Missing).Select(k => k.Key)];
    }

    private static bool Has(in Nest nest, LocatorKind kind) => nest.First.Kind == kind || nest.Second.Kind == kind;
}
