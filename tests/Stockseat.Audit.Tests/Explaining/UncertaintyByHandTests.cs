using Stockseat.Answers.Locate;
using Stockseat.Answers.Tests.Support;
using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>Each component of the demo's budgets: the stated value, its standard uncertainty, its sensitivity by differences, and the result.</summary>
public sealed class UncertaintyByHandTests
{
    private const double In = 0.0254;
    private const double Deg = Math.PI / 180;
    private static readonly double Root3 = Math.Sqrt(3);

    /// <summary>A component as its fixture's file states it: value, divisor, sensitivities.</summary>
    private sealed record Part(string Name, double A, double Divisor, (double Along, double Across) C, bool Angle = false);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(5, 3)]
    public void Two_pins_of_the_demo_s_tilted_bed(int column, int row)
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        var answer = bench.Locate(0.0924, column: column, row: row);
        var touching = new Touching([(true, [-0.03, 0, 0.006]), (true, [0.03, 0, 0.006])], 0.0462, 0.04);
        var v = Math.Sqrt(0.0525 * 0.0525 - 0.03 * 0.03) - Math.Sqrt(0.046 * 0.046 - 0.03 * 0.03);

        Agrees(Read.Last(bench), answer, column, row, OfPins(touching, row == 0 && column == 0, 0.00002, 0.0001, 0.00015,
            new("askedDiameter", 0.00005, Root3, Half(touching.PerRadius(0.0462))),
            new("frameAngle", 0.02, Root3, (column * 0.125, row * 0.13 + v), Angle: true)));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(2, 0)]
    public void Two_rollers_of_the_demo_and_the_gauge_that_measured_the_master_too(int column, int row)
    {
        var bench = Bench.Serving(Revisions.Demo("rollers-3/r0002.json"));
        bench.Do(Bench.Push([0.09998, 0.1, 0.10002, 0.1]) with
        {
            Fixture = "rollers-3",
            Terms = new("bench-2", 0.0001, TimeSpan.FromHours(8)) { Limits = new() { LimitsOfError = 0.00003, Resolution = 0.00001, Repeatability = 0.00002 } },
        });
        var answer = bench.Locate(fixture: "rollers-3", column: column);
        var touching = new Touching([(true, [-0.045, 0, 0.025]), (true, [0.045, 0, 0.025])], 0.05, 0.04);
        var (here, there) = (touching.PerRadius(0.05), touching.PerRadius(0.04));
        var v = touching.Centres.Here[1] - touching.Centres.There[1];

        // Columns repeat along w: a turn about u and v acts over that distance.
        var w = column * 0.45;
        Agrees(Read.Last(bench), answer, column, row, OfPins(touching, column == 0, 0.00005, 0.0002, 0.0002,
            new("gauge", 0.00003, Root3, Half([here[0] - there[0], here[1] - there[1]])),
            new("resolution", 0.000005, Root3, Half(here)),
            new("repeatability", 0.00002 / 2, 1, Half(here)),
            new("taughtDiameter", 0.00001, Root3, Half(there)),
            new("frameAngle", 0.02, Root3, (w, Math.Sqrt(v * v + w * w)), Angle: true)));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(3, 1)]
    public void A_vee_of_the_demo_s_rack(int column, int row)
    {
        var bench = Bench.Serving(Revisions.Demo("veerack-2/r0002.json"));
        var answer = bench.Locate(3.5 * In, "veerack-2", column: column, row: row);
        var touching = new Touching([(false, [0, 0, 45 * Deg]), (false, [0, 0, 135 * Deg])], 1.75 * In, 1.375 * In);
        var same = column == 0 && row == 0;
        var v = (1.76 - 1.375) * Math.Sqrt(2) * In;

        // A lobed contour in a 90 deg vee: its contacts stand off by cos(n psi1), cos(n psi2), and the centre by the sum or the difference of both over
        // 2 sin 45; the worst phase and number of lobes are searched for. An even number misleads the gauge too, by up to 2a on the diameter: that is
        // |dC/dR| a, in quadrature.
        var (along, across) = (0.0, 0.0);
        for (var n = 2; n <= 12; n++)
        {
            for (var phase = 0.0; phase < 360; phase += 0.25)
            {
                var (d1, d2) = (PlainSeat.Cos(n * 225 - phase), PlainSeat.Cos(n * 315 - phase));
                along = Math.Max(along, Math.Pow((d1 + d2) / Math.Sqrt(2), 2) + (n % 2 == 0 ? 2 : 0));
                across = Math.Max(across, Math.Pow((d1 - d2) / Math.Sqrt(2), 2));
            }
        }

        Agrees(Read.Last(bench), answer, column, row,
        [
            new("locatorPosition", 0.004 * In, Root3, touching.Sum(same, Along(0), Along(1))),
            new("seating", 0.00015, Root3, (1, 1)), // each gap moves the centre by 1, at right angles to the other face
            new("teaching", 0.00015, Root3, (1, 1)), new("robot", 0.00005, Root3, (1, 1)), new("frame", 0.00003, 1, (1, 1)),
            new("frameAngle", 0.01, 1, (column * 4.5 * In, row * 6 * In + v), Angle: true),
            new("lean", 0.5, Root3, (0.025, 0.025), Angle: true),
            new("roundness", 0.0002, Math.Sqrt(2), (Math.Sqrt(along), Math.Sqrt(across))),
            new("askedDiameter", 0.002 * In, Root3, (Math.Sqrt(2) / 2, 0)),
        ]);
    }

    /// <summary>A face moves along its normal.</summary>
    private static Action<(bool Pin, double[] At)[], double> Along(int i) => (nest, d) =>
    {
        nest[i].At[0] += d * Math.Cos(nest[i].At[2]);
        nest[i].At[1] += d * Math.Sin(nest[i].At[2]);
    };

    private static Part[] OfPins(Touching touching, bool same, double diameter, double position, double teaching, params Part[] more)
    {
        // A gap at one contact alone moves the centre as a larger pin does.
        static Action<(bool Pin, double[] At)[], double> Move(int i, int k, double by = 1) => (nest, d) => nest[i].At[k] += by * d;
        return
        [
            new("locatorDiameter", diameter, Root3, touching.Sum(same, Move(0, 2, 0.5), Move(1, 2, 0.5))),
            new("locatorPosition", position, Root3, touching.Sum(same, Move(0, 0), Move(0, 1), Move(1, 0), Move(1, 1))),
            new("seating", 0.0001, Root3, Half(touching, Move)),
            new("teaching", teaching, Root3, (1, 1)), new("frame", 0.0001, Root3, (1, 1)), new("robot", 0.00005, Root3, (1, 1)),
            .. more,
        ];
    }

    private static (double, double) Half(Touching touching, Func<int, int, double, Action<(bool Pin, double[] At)[], double>> move)
    {
        // Both seats are the same, each with gaps of its own: the squares of both are twice those of one.
        var twice = (touching with { Taught = touching.Radius }).Sum(sameNest: false, move(0, 2, 1), move(1, 2, 1));
        return (twice.Along / Math.Sqrt(2), twice.Across / Math.Sqrt(2));
    }

    private static (double, double) Half(double[] p) => (Math.Abs(p[1]) / 2, Math.Abs(p[0]) / 2);

    private static void Agrees(Working working, AnswerBody answer, int column, int row, Part[] parts)
    {
        var section = working.Section($"Uncertainty of nest {column},{row}");
        var (along, across) = (0.0, 0.0);
        foreach (var part in parts)
        {
            var u = part.A / part.Divisor * (part.Angle ? Deg : 1);
            Near([part.A], section.Line($"a({part.Name})"), part.Angle ? "deg" : "m", 1e-12);
            Near([u], section.Line($"u({part.Name})"), part.Angle ? "1" : "m", 1e-12);
            Near([part.C.Along, part.C.Across], section.Line($"c({part.Name})"), part.Angle ? "m" : "1", 1e-5);
            Near([u * part.C.Along, u * part.C.Across], section.Line($"q({part.Name})"), "m", 1e-5);
            along += u * u * part.C.Along * part.C.Along;
            across += u * u * part.C.Across * part.C.Across;
        }

        Assert.Equal(
            parts.Select(p => p.Name).Order(),
            section.Lines.Where(l => l.Symbol.StartsWith("a(", StringComparison.Ordinal)).Select(l => l.Symbol[2..^1]).Order());
        Near([Math.Sqrt(along), Math.Sqrt(across)], section.Line("u_c"), "m", 1e-5);
        Near([2 * Math.Sqrt(along), 2 * Math.Sqrt(across)], section.Line("U"), "m", 1e-5);
        Recorded(working, section, answer);
    }

    /// <summary>The last values are the answer's own.</summary>
    private static void Recorded(Working working, WorkingSection section, AnswerBody answer)
    {
        var sure = answer.Uncertainty!;
        Near([sure.Along, sure.Across], section.Line("U"), "m", 1e-14);
        Assert.Equal(sure.Largest, working.Value("Uncertainty", "U_largest"), 1e-16);
        if (sure.AlongWorst is not null)
        {
            Near([sure.AlongWorst.Value, sure.AcrossWorst!.Value], working.Section("Uncertainty").Line("U_worst"), "m", 1e-14);
        }
    }

    private static void Near(double[] expected, WorkingLine line, string unit, double relative)
    {
        Assert.Equal((expected.Length, unit), (line.Values.Count, line.Unit));
        Assert.All(
            expected.Zip(line.Values), pair => Assert.True(
                Math.Abs(pair.First - pair.Second) <= relative * Math.Max(1e-4, Math.Abs(pair.First)),
                $"{line.Symbol}: by hand {pair.First:R}, worked out {pair.Second:R}"));
    }
}
