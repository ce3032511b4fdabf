using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Tests.Support;
using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>Every step from the locators to the position, for each form of nest, compared with plane geometry with angles.</summary>
public sealed class PlanByHandTests
{
    private const double In = 0.0254;
    private const string Taught = "Seat at the taught diameter";
    private const string Own = "Seat at the diameter used";
    private const string Clear = "Centre with the stand-off";
    private const string Shift = "Shift in the plan";
    private const string Base = "Shift and position in base";
    private static readonly string[] All =
        ["Inputs", "Locators of the nest", Taught, Own, Clear, Shift, Base, "Envelope and limits", "First run or not", "As served"];
    private static readonly double S30 = 0.5;
    private static readonly double C30 = Math.Sqrt(3) / 2;

    private delegate PlainSeat Seated(double reach, string by);

    [Fact]
    public void Two_pins_of_the_demo_s_tilted_bed()
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        var answer = bench.Locate(0.0924, column: 2, row: 1);
        PlainSeat Seat(double reach, string by) => PlainSeat.LevelPins(0.03, 0.006, reach, by);

        var (hand, _, dv) = Plan(Seat, 0.0924, 0.08, 0.0003);

        // In base u = (0.8, 0.6, 0), v = (-0.576, 0.768, 0.28), w = (0.168, -0.224, 0.96); the tool's x, y and z are u, -v and -w.
        var v = 0.130 + dv;
        hand.Put(Base, "bx", -0.576 * dv).Put(Base, "by", 0.768 * dv).Put(Base, "bz", 0.28 * dv)
            .Put(Base, "off_column", 0.2, 0.15, 0).Put(Base, "off_row", -0.07488, 0.09984, 0.0364).Put(Base, "off", 0.12512, 0.24984, 0.0364)
            .Put(Base, "x", 0.4123 + 0.2 - 0.576 * v).Put(Base, "y", -0.205 + 0.15 + 0.768 * v).Put(Base, "z", 0.118 + 0.28 * v)
            .Put(Base, "R1", 0.8, 0.576, -0.168).Put(Base, "R2", 0.6, -0.768, 0.224).Put(Base, "R3", 0, -0.28, -0.96)
            .Put(Base, "ox", 0).Put(Base, "oy", -dv).Put(Base, "oz", 0);

        Agrees(hand, bench, answer);
    }

    [Fact]
    public void A_vee_of_the_demo_s_turned_rack()
    {
        var bench = Bench.Serving(Revisions.Demo("veerack-2/r0002.json"));
        var answer = bench.Locate(3.5 * In, "veerack-2", column: 3, row: 1);
        var hand = new ByHand();
        PlainSeat Seat(double reach, string by) => PlainSeat.Vee(45, reach, by);

        // The vee's contacts are R / tan(45 deg) from its apex along each face.
        var r = Math.Sqrt(0.5);
        (hand, _, var dv) = Plan(Seat, 3.5 * In, 2.75 * In, 0.010 * In);
        foreach (var (title, radius) in new[] { (Taught, 1.375 * In), (Own, 1.75 * In) })
        {
            hand.Put(title, "t1", -r, r).Put(title, "t2", r, r).Put(title, "s1", radius).Put(title, "s2", radius);
        }

        var (u, v) = (3 * 4.5 * In, 6 * In + dv);
        hand.Put("Locators of the nest", "n1", r, r).Put("Locators of the nest", "n2", -r, r)
            .Put(Base, "bx", -dv * S30).Put(Base, "by", dv * C30).Put(Base, "bz", 0)
            .Put(Base, "off_column", 13.5 * In * C30, 13.5 * In * S30, 0).Put(Base, "off_row", -6 * In * S30, 6 * In * C30, 0)
            .Put(Base, "off", 13.5 * In * C30 - 6 * In * S30, 13.5 * In * S30 + 6 * In * C30, 0)
            .Put(Base, "x", 0.655 + u * C30 - v * S30).Put(Base, "y", 0.180 + u * S30 + v * C30).Put(Base, "z", 0.240)
            .Put(Base, "R1", C30, S30, 0).Put(Base, "R2", S30, -C30, 0).Put(Base, "R3", 0, 0, -1).Put(Base, "ox", 0).Put(Base, "oy", -dv).Put(Base, "oz", 0);
        Agrees(hand, bench, answer);
    }

    [Fact]
    public void Two_rollers_of_the_demo_under_a_bar()
    {
        var bench = Bench.Serving(Revisions.Demo("rollers-3/r0002.json"));
        var answer = bench.Locate(0.1, "rollers-3", column: 2);
        PlainSeat Seat(double reach, string by) => PlainSeat.LevelPins(0.045, 0.025, reach, by);

        var (hand, _, dv) = Plan(Seat, 0.1, 0.08, 0);
        hand.Put(Base, "bx", 0).Put(Base, "by", 0).Put(Base, "bz", dv).Put(Base, "off_column", 0.9, 0, 0).Put(Base, "off", 0.9, 0, 0)
            .Put(Base, "x", -0.310 + 0.9).Put(Base, "y", 0.540).Put(Base, "z", 0.0955 + dv)
            .Put(Base, "R1", 0, 1, 0).Put(Base, "R2", 1, 0, 0).Put(Base, "R3", 0, 0, -1).Put(Base, "ox", 0).Put(Base, "oy", 0).Put(Base, "oz", -dv);
        Agrees(hand, bench, answer);
    }

    [Fact]
    public void Two_unequal_pins_at_two_heights() => Turned(
        Nests.Pins(-30, 0, 6, 34, 5, 5), (reach, by) => PlainSeat.Pins(-0.030, 0, 0.006, 0.034, 0.005, 0.005, reach, by));

    [Fact]
    public void A_pin_and_a_face() => Turned(
        Nests.PinFace(-35, -4, 10, 25, -10, 140), (reach, by) => PlainSeat.PinFace(-0.035, -0.004, 0.010, 0.025, -0.010, 140, reach, by));

    [Fact]
    public void A_lopsided_vee_off_the_plan_s_origin() => Turned(
        Nests.Faces(2, -3, 35, 125), (reach, by) => PlainSeat.LopsidedVee(0.002, -0.003, 35, 55, reach, by));

    /// <summary>A place with a stand-off of 0.5 mm, into a nest whose plan is turned in base: v = (0.6, 0.8, 0), w up, so u = v x w = (0.8, -0.6, 0).</summary>
    private static void Turned(string nest, Seated seat)
    {
        var bench = Bench.Serving(Nests.Revision(nest, "80 mm"));
        var answer = bench.Locate(0.085, purpose: Purpose.Place);
        var (hand, du, dv) = Plan(seat, 0.085, 0.08, 0.0005);
        if (nest.Contains("face", StringComparison.Ordinal))
        {
            double[] angles = nest.Contains("pin", StringComparison.Ordinal) ? [double.NaN, 140] : [35, 125];
            for (var i = 0; i < 2; i++)
            {
                if (!double.IsNaN(angles[i]))
                {
                    hand.Put("Locators of the nest", $"n{i + 1}", PlainSeat.Cos(angles[i]), PlainSeat.Sin(angles[i]));
                }
            }
        }

        var (bx, by) = (0.8 * du + 0.6 * dv, -0.6 * du + 0.8 * dv);

        // The origin's axes in base: turned by 30 deg about z, then 10 deg about its y, then 170 deg about its x.
        var (sz, cz, sy, cy, sx, cx) = (S30, C30, PlainSeat.Sin(10), PlainSeat.Cos(10), PlainSeat.Sin(170), PlainSeat.Cos(170));
        double[] r1 = [cz * cy, cz * sy * sx - sz * cx, cz * sy * cx + sz * sx];
        double[] r2 = [sz * cy, sz * sy * sx + cz * cx, sz * sy * cx - cz * sx];
        double[] r3 = [-sy, cy * sx, cy * cx];
        hand.Put(Base, "bx", bx).Put(Base, "by", by).Put(Base, "bz", 0).Put(Base, "x", 0.010 + bx).Put(Base, "y", 0.020 + by).Put(Base, "z", 0.030)
            .Put(Base, "R1", r1).Put(Base, "R2", r2).Put(Base, "R3", r3)
            .Put(Base, "ox", r1[0] * bx + r2[0] * by).Put(Base, "oy", r1[1] * bx + r2[1] * by).Put(Base, "oz", r1[2] * bx + r2[2] * by);
        Agrees(hand, bench, answer);
    }

    private static (ByHand Hand, double Du, double Dv) Plan(Seated seat, double diameter, double taught, double standOff)
    {
        var (there, here, clear) = (seat(taught / 2, "R_t"), seat(diameter / 2, "R"), seat((diameter / 2) + standOff, "R + g"));
        var (du, dv) = (clear.Centre[0] - there.Centre[0], clear.Centre[1] - there.Centre[1]);
        var hand = new ByHand().Put("Inputs", "R", diameter / 2).Put("Inputs", "R_t", taught / 2)
            .Put(Clear, clear).Put(Clear, "R + g", diameter / 2 + standOff).Put(Clear, "gap1", standOff).Put(Clear, "gap2", standOff)
            .Put(Shift, "du", du).Put(Shift, "dv", dv).Put(Shift, "|shift|", Math.Sqrt(du * du + dv * dv));
        return (hand.Put(Taught, there.Contacts(taught / 2)).Put(Own, here.Contacts(diameter / 2)), du, dv);
    }

    /// <summary>All values by hand; the last ones are the answer's own.</summary>
    private static void Agrees(ByHand hand, Bench bench, AnswerBody answer)
    {
        var working = Read.Last(bench);
        foreach (var name in AnswerBody.Numbers)
        {
            answer.TryNumber(name, out var value);
            hand.Put("As served", name, Math.Round(value, 6));
        }

        (string, double?)[] sure = [("ualong", answer.Uncertainty?.Along), ("uacross", answer.Uncertainty?.Across)];
        foreach (var (name, value) in sure.Where(s => s.Item2 is not null))
        {
            hand.Put("As served", name, Math.Ceiling(value!.Value * 1e6) / 1e6);
        }

        hand.Check(working, All);
        Same(answer.Position, working, "x", "y", "z");
        Same(answer.ShiftBase, working, "bx", "by", "bz");
        Same(answer.ShiftOrigin, working, "ox", "oy", "oz");
        Assert.DoesNotContain("recorded otherwise", working.Words(), StringComparison.Ordinal);
    }

    private static void Same(double[] body, Working working, params string[] symbols) =>
        Assert.All(symbols.Zip(body), pair => Assert.Equal(pair.Second, working.Value(Base, pair.First), 1e-15));
}
