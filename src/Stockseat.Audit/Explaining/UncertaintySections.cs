using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Uncertainty;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>The uncertainty of a nest's position: what moves the centre, each component of the budget, and their sum.</summary>
internal static class UncertaintySections
{
    public const string Title = "Uncertainty";
    public const string Moves = "What moves the centre";

    /// <summary>The title of a nest's budget.</summary>
    public static string At(int column, int row) => $"{Title} of nest {Whole(column)},{Whole(row)}";

    /// <summary>The sections.</summary>
    /// <param name="located">What was asked.</param>
    /// <param name="revision">The revision.</param>
    /// <param name="taught">The seat at the taught diameter.</param>
    /// <param name="seat">The seat at the diameter used.</param>
    public static IEnumerable<WorkingSection> Of(Located located, Revision revision, Seat taught, Seat seat)
    {
        var budgets = located is { Diameter: { } diameter, StandOff: { } standOff, Nest: { } nest }
            ? NestBudget.Of(revision, diameter, standOff, located.From, nest.Column, nest.Row)
            : [];
        if (budgets.Count == 0)
        {
            var none = new Steps(Title);
            none.Say($"The uncertainty is not known: {WhyNot(revision, located)}.");
            none.Say(
                revision.Limits.UncertaintyMetres is null ? "limits.uncertainty is not stated."
                    : "limits.uncertainty is stated, and an unknown uncertainty does not satisfy it.");
            yield return none.Section;
            yield break;
        }

        yield return Movements(revision.Nest, taught, seat);
        var same = Certainty.Diameter(revision, located.From)?.SameGauge == true;
        foreach (var budget in budgets)
        {
            yield return Nest(revision, budget, same, located.From);
        }

        yield return Together(revision, budgets, Worst(located, revision));
    }

    private static string WhyNot(Revision revision, Located located) => revision.Uncertainty is null ? "the revision states no uncertainty"
        : located.Diameter is null || located.Nest is null || located.StandOff is null ? "the entry does not hold all inputs"
        : Certainty.Diameter(revision, located.From) is null
        ? "the diameter does not come from a gauge with LimitsOfError, and uncertainty.askedDiameter is not stated"
        : "there is no seat";

    private static WorkingSection Movements(in Nest nest, in Seat taught, in Seat seat)
    {
        var steps = new Steps(Moves);
        steps.Say(
            "gi is how the centre moves (u, v) when contact i alone moves by a unit along its normal ni; p is how it moves with the radius. _t: at the taught "
                + "diameter.");
        Pair(steps, "", "seat at the diameter used", seat);
        Pair(steps, "_t", "seat at the taught diameter", taught);
        steps.Make(
            "beta", "the angle between both normals at the diameter used", "arccos(n1.u n2.u + n1.v n2.v)", Degree,
            Degrees(Math.Acos(Math.Clamp(PlanVector.Dot(seat.FirstNormal, seat.SecondNormal), -1, 1))));
        Arm(steps, nest.First, "1", seat, taught);
        Arm(steps, nest.Second, "2", seat, taught);
        return steps.Section;
    }

    private static void Pair(Steps steps, string t, string of, in Seat seat)
    {
        var (a, b) = (seat.FirstNormal, seat.SecondNormal);
        var det = PlanVector.Cross(a, b);
        steps.Make($"g1{t}", $"of the {of}", "(n2.v / det, -n2.u / det)", One, new PlanVector(b.V / det, -b.U / det));
        steps.Make($"g2{t}", $"of the {of}", "(-n1.v / det, n1.u / det)", One, new PlanVector(-a.V / det, a.U / det));
        steps.Make($"p{t}", $"of the {of}", $"g1{t} + g2{t}", One, new PlanVector((b.V - a.V) / det, (a.U - b.U) / det));
    }

    private static void Arm(Steps steps, in Locator locator, string i, in Seat seat, in Seat taught)
    {
        if (locator.Kind == LocatorKind.Face)
        {
            var t = locator.Normal.Turned;
            steps.Make(
                $"arm{i}", $"the lever arm of a turn of face {i}", $"-n{i}.v (C(R).u - F{i}.u) + n{i}.u (C(R).v - F{i}.v)", Metre,
                PlanVector.Dot(t, seat.Centre - locator.Point));
            steps.Make(
                $"arm{i}_t", "the same at the taught diameter", $"-n{i}.v (C(R_t).u - F{i}.u) + n{i}.u (C(R_t).v - F{i}.v)", Metre,
                PlanVector.Dot(t, taught.Centre - locator.Point));
        }
    }

    private static WorkingSection Nest(Revision revision, NestBudget budget, bool sameGauge, DiameterFrom? from)
    {
        var steps = new Steps(At(budget.Column, budget.Row));
        steps.Say(
            "Pairs are given as (along, across): along the seat axis v, across it u. a: what is stated; u: its standard uncertainty; c: how far the centre "
                + "moves for a unit of it; q = c u.");
        var at = revision.Layout.OffsetPlan(budget.Column, budget.Row);
        steps.Add("off_plan", "from nest 0,0 to this nest, in the plan (u, v, w)", "", Metre, at.U, at.V, at.W);
        foreach (var line in budget.Budget.Lines)
        {
            Component(steps, revision, line, at == default, sameGauge, from);
        }

        var (along, across) = (Combined(budget.Budget, l => l.ContributionAlongMetres), Combined(budget.Budget, l => l.ContributionAcrossMetres));
        steps.Add(
            "u_c", "the combined standard uncertainty: the root of the sum of the squares of all q (along, across)", "sqrt(sum of q^2)", Metre, along, across);
        steps.Add(
            "U", "the expanded uncertainty, k = 2 (along, across)", "2 u_c", Metre, Propagation.CoverageFactor * along, Propagation.CoverageFactor * across);
        steps.Say(
            budget.NotStated.Count == 0 ? "All components are stated." : $"Not stated, so not part of U: {string.Join(", ", budget.NotStated)}.");
        return steps.Section;
    }

    private static double Combined(Budget budget, Func<BudgetLine, double> q) => Math.Sqrt(budget.Lines.Sum(l => q(l) * q(l)));

    private static void Component(Steps steps, Revision revision, BudgetLine line, bool sameNest, bool sameGauge, DiameterFrom? from)
    {
        var name = line.Component.Name();
        var (angle, input) = (line.Component.IsAngle(), line.Input);
        var value = angle ? Degrees(input.Value) : input.Value;
        steps.Make($"a({name})", Stated(line.Component, input.Distribution), Origin(line, from), angle ? Degree : Metre, value);
        var divisor = input.Distribution switch { Distribution.Rectangular => " / sqrt(3)", Distribution.Arcsine => " / sqrt(2)", _ => "" };
        steps.Make(
            $"u({name})", angle ? "its standard uncertainty, in radians" : "its standard uncertainty", $"a({name}){divisor}{(angle ? " pi / 180" : "")}",
            angle ? One : Metre, input.Standard);
        steps.Add(
            $"c({name})", "its sensitivity (along, across)", SensitivityWords.Of(line.Component, revision.Nest, sameNest, sameGauge), angle ? Metre : One,
            line.SensitivityAlong, line.SensitivityAcross);
        steps.Add(
            $"q({name})", "what it contributes (along, across)", $"c({name}) u({name})", Metre, line.ContributionAlongMetres, line.ContributionAcrossMetres);
    }

    private static string Stated(Component component, Distribution distribution) => component switch
    {
        Seating.Uncertainty.Component.Resolution => $"{Words(component)}: anywhere within half a step, rectangular",
        Seating.Uncertainty.Component.Repeatability => $"{Words(component)}: a standard uncertainty, normal",
        _ => distribution == Distribution.Normal ? $"{Words(component)}: a standard uncertainty, as stated, normal"
            : $"{Words(component)}: +/-, as stated, {distribution.Name()}",
    };

    /// <summary>How the value follows from the measurement; empty where the revision states it.</summary>
    private static string Origin(BudgetLine line, DiameterFrom? from) => line.Component switch
    {
        Seating.Uncertainty.Component.Gauge => "E(gauge)",
        Seating.Uncertainty.Component.Resolution => "step(gauge) / 2",
        Seating.Uncertainty.Component.Repeatability when from is not null =>
            $"{(line.Input.Value == Input.Mean(from.Deviation ?? -1, from.Readings).Value ? "s(readings)" : "s(gauge)")} / sqrt({Whole(from.Readings)})",
        _ => "",
    };

    private static string Words(Component component) => component switch
    {
        Seating.Uncertainty.Component.Gauge => "the gauge's limits of error, on the diameter",
        Seating.Uncertainty.Component.Resolution => "the step of the gauge's display, on the diameter",
        Seating.Uncertainty.Component.Repeatability => "the repeatability of the mean of the readings",
        Seating.Uncertainty.Component.AskedDiameter => "a diameter that was not measured by a gauge with limits of error",
        Seating.Uncertainty.Component.TaughtDiameter => "the diameter that the origin was taught with",
        Seating.Uncertainty.Component.Roundness => "how far the contour departs from its mean circle, on the radius",
        Seating.Uncertainty.Component.LocatorDiameter => "the pins' diameters",
        Seating.Uncertainty.Component.LocatorPosition => "where the locators are",
        Seating.Uncertainty.Component.LocatorAngle => "how the faces are turned",
        Seating.Uncertainty.Component.Seating => "stock that is not fully seated: a gap at each contact",
        Seating.Uncertainty.Component.Lean => "an unsquare saw cut, over leanHeight",
        Seating.Uncertainty.Component.Teaching => "how well the origin was taught",
        Seating.Uncertainty.Component.Frame => "where the fixture stands",
        Seating.Uncertainty.Component.FrameAngle => "how the fixture is turned",
        _ => "the robot's repeatability",
    };

    /// <summary>
    /// Of the nests at the layout's ends, each direction by itself; null when the ask was not for the origin, or when there are no other nests.
    /// </summary>
    private static ExpandedUncertainty? Worst(Located located, Revision revision)
    {
        if (located is not { Nest: (0, 0), Diameter: { } diameter, StandOff: { } standOff } || !revision.Layout.Corners().Any()
            || Certainty.Diameter(revision, located.From) is not { } inputs || Fit.Place(revision, diameter, standOff) is not { } placed)
        {
            return null;
        }

        return Certainty.Worst(revision.Layout, Certainty.Model(revision, placed, inputs)).Expanded;
    }

    private static WorkingSection Together(Revision revision, IReadOnlyList<NestBudget> budgets, ExpandedUncertainty? worst)
    {
        var steps = new Steps(Title);
        var own = budgets[0].Budget.Expanded;
        steps.Add("U_nest", "U of the nest asked, as above (along, across)", "", Metre, own.Along, own.Across);
        var most = worst is { } other ? ExpandedUncertainty.Max(own, other) : own;
        if (worst is { } ends)
        {
            steps.Say(
                "An answer for the origin also carries the worst U of all nests; the worst nests are at the ends of the "
                    + $"layout{(budgets.Count > 1 ? $", and nest {Whole(budgets[1].Column)},{Whole(budgets[1].Row)} has the largest" : "")}.");
            steps.Add(
                "U_ends", "the largest U of the nests at the layout's ends, each direction by itself (along, across)", "", Metre, ends.Along, ends.Across);
            steps.Add(
                "U_worst", "the worst of all nests (along, across)", "the larger of U_nest and U_ends, each direction by itself", Metre, most.Along,
                most.Across);
        }

        var largest = steps.Make(
            "U_largest", "the U that is compared with the limit, along or across", worst is null ? "the larger of both of U_nest" : "the larger of both of "
                + "U_worst",
            Metre, most.Larger);
        if (revision.Limits.UncertaintyMetres is { } limit)
        {
            steps.Given("limits.uncertainty", "the most that U may be, along and across", Metre, limit);
            steps.Compare("U_largest", largest, "limits.uncertainty", limit, Metre);
        }
        else
        {
            steps.Say("limits.uncertainty is not stated.");
        }

        return steps.Section;
    }
}
