using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>From the plan to the robot: the shift in base, the nest's offset, the position, and the shift in the taught origin's own axes.</summary>
internal static class BaseSection
{
    public const string Title = "Shift and position in base";

    private static readonly string[] Axes = ["x", "y", "z"];

    /// <summary>The section.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="column">The nest's column.</param>
    /// <param name="row">The nest's row.</param>
    /// <param name="shift">The shift in the plan, in metres.</param>
    /// <param name="length">The length that was used, in metres; null: the position does not follow it.</param>
    /// <param name="shiftBase">The shift in base.</param>
    public static WorkingSection Of(Revision revision, int column, int row, PlanVector shift, double? length, out Vector3 shiftBase)
    {
        var steps = new Steps(Title);
        steps.Say("Vectors in base are given as (x, y, z). Q = [u v w] has the plan's axes as its columns.");
        var (u, v, w) = (revision.Frame.U, revision.Frame.V, revision.Frame.W);
        steps.Given("u", "the plan's u axis in base", One, u);
        steps.Given("v", "the plan's v axis in base, the seat axis", One, v);
        steps.Given(
            "w", revision.Grip is null ? "the plan's normal in base: nothing is ever corrected along it" : "the plan's normal in base", One, w);
        if (length is { } l && revision.Grip is { } grip)
        {
            var dw = Along(steps, grip, l);
            shiftBase = Each(
                steps, "b", "the shift in base along {0}", "du u.{0} + dv v.{0} + dw w.{0}", shift.U * u.X + shift.V * v.X + dw * w.X,
                shift.U * u.Y + shift.V * v.Y + dw * w.Y, shift.U * u.Z + shift.V * v.Z + dw * w.Z);
        }
        else
        {
            shiftBase = Each(
                steps, "b", "the shift in base along {0}", "du u.{0} + dv v.{0}", shift.U * u.X + shift.V * v.X, shift.U * u.Y + shift.V * v.Y,
                shift.U * u.Z + shift.V * v.Z);
        }

        var offset = Offset(steps, revision.Layout, u, v, w, column, row);
        var taught = steps.Given("p_t", "the taught position in base", Metre, revision.TaughtOrigin.PositionMetres);
        Each(
            steps, "", "the corrected position in base, {0}", "p_t.{0} + off.{0} + b{0}",
            taught.X + offset.X + shiftBase.X, taught.Y + offset.Y + shiftBase.Y, taught.Z + offset.Z + shiftBase.Z);
        Own(steps, revision.TaughtOrigin.Orientation, shiftBase);
        return steps.Section;
    }

    private static double Along(Steps steps, Grip grip, double length)
    {
        var used = steps.Given("L", "the stock's length", Metre, length);
        var taught = steps.Given("L_t", "the length that was taught", Metre, grip.TaughtLengthMetres);
        var share = steps.Given("s", "the share of the difference by which the gripper's place follows", One, grip.Share);
        return steps.Make("dw", "the shift along the normal", "s (L - L_t)", Metre, share * (used - taught));
    }

    private static Vector3 Offset(Steps steps, Layout layout, Vector3 u, Vector3 v, Vector3 w, int column, int row)
    {
        var first = Row(steps, layout.First, "column", column, u, v, w);
        var second = Row(steps, layout.Second, "row", row, u, v, w);
        var parts = string.Join(" + ", new[] { layout.First is null ? null : "off_column", layout.Second is null ? null : "off_row" }.OfType<string>());
        return parts.Length > 0
            ? steps.Make("off", $"from nest 0,0 to nest {Whole(column)},{Whole(row)}", parts, Metre, first + second)
            : steps.Given("off", "from nest 0,0 to the nest: this is the only nest", Metre, default(Vector3));
    }

    private static Vector3 Row(Steps steps, LayoutRow? layout, string name, int index, Vector3 u, Vector3 v, Vector3 w)
    {
        if (layout is not { } row)
        {
            return default;
        }

        var axis = row.Direction switch { 'u' => u, 'v' => v, _ => w };
        steps.Given(name, $"the nest's {name}", One, index);
        var pitch = steps.Given($"pitch_{name}", $"from {name} to {name}, along {row.Direction}", Metre, row.PitchMetres);
        return steps.Make(
            $"off_{name}", $"over {Whole(index)} {name}{(index == 1 ? "" : "s")}", $"{name} pitch_{name} {row.Direction}", Metre, index * pitch * axis);
    }

    /// <summary>The same shift for a program that multiplies poses.</summary>
    private static void Own(Steps steps, Rotation rotation, Vector3 b)
    {
        var (w, x, y, z) = (rotation.W, rotation.X, rotation.Y, rotation.Z);
        steps.Add("q", "the taught orientation, unchanged: a unit quaternion (w, x, y, z)", "", One, w, x, y, z);
        steps.Say("R turns the taught origin's own axes into base; its columns are those axes. R transposed turns a vector in base into those axes.");
        var r1 = steps.Make(
            "R1", "row 1 of R", "(1 - 2 (q.y^2 + q.z^2), 2 (q.x q.y - q.w q.z), 2 (q.x q.z + q.w q.y))", One,
            new Vector3(1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)));
        var r2 = steps.Make(
            "R2", "row 2 of R", "(2 (q.x q.y + q.w q.z), 1 - 2 (q.x^2 + q.z^2), 2 (q.y q.z - q.w q.x))", One,
            new Vector3(2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)));
        var r3 = steps.Make(
            "R3", "row 3 of R", "(2 (q.x q.z - q.w q.y), 2 (q.y q.z + q.w q.x), 1 - 2 (q.x^2 + q.y^2))", One,
            new Vector3(2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)));
        Each(
            steps, "o", "the shift in the taught origin's own axes, along its {0}", "R1.{0} bx + R2.{0} by + R3.{0} bz",
            r1.X * b.X + r2.X * b.Y + r3.X * b.Z, r1.Y * b.X + r2.Y * b.Y + r3.Y * b.Z, r1.Z * b.X + r2.Z * b.Y + r3.Z * b.Z);
    }

    private static Vector3 Each(Steps steps, string symbol, string text, string formula, params ReadOnlySpan<double> values)
    {
        for (var i = 0; i < Axes.Length; i++)
        {
            steps.Make(
                symbol + Axes[i], text.Replace("{0}", Axes[i], StringComparison.Ordinal), formula.Replace("{0}", Axes[i], StringComparison.Ordinal), Metre,
                values[i]);
        }

        return new(values[0], values[1], values[2]);
    }
}
