using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Tests.Recheck;

public sealed class RecheckTests
{
    private const string Known = """ "uncertainty": { "robot": { "standard": "0.1 mm" }, "askedDiameter": { "standard": "0 mm" } }, """;

    private const string Vee60 = """{ "vee": { "includedAngle": "60 deg" } }""";

    // By hand. Two pins 60 mm apart, 12 mm thick: v = √((R + 6)² − 30²); 80 mm → √1216 = 34.871192; 92 mm → √1804 = 42.473521; so 7.602329 mm up the seat axis.
    private const double PinsFrom80To92 = 0.007602329;

    [Theory]
    [InlineData(0.08, 0)]
    [InlineData(0.092, PinsFrom80To92)]
    public void Two_pins_predict_the_centre_of_the_master_by_hand(double master, double y)
    {
        var body = Recheck(Bench.Serving(Revisions.Good(standOff: "0.3 mm")), master, new(0, 0, 0));

        Near([0, y, 0], body.Predicted);
        Near([0, -y, 0], body.MissBase);
    }

    [Fact]
    public void A_vee_predicts_the_radius_over_the_sine_of_its_half_angle()
    {
        // 60 deg: 1/sin 30 deg = 2, so 6 mm more radius is 12 mm more height; nest 1,0 lies one pitch along u, which is x for a seat axis y and a normal z.
        var bench = Bench.Serving(Revisions.Good(nest: Vee60, layout: """[ { "direction": "u", "count": 2, "pitch": "125 mm" } ]"""));

        var body = Recheck(bench, 0.092, new(0.1251, 0.0118, 0.0003), column: 1);

        Near([0.125, 0.012, 0], body.Predicted);
        Near([0.0001, -0.0002, 0.0003], body.MissBase);
        Near([-0.0002, 0.0001, 0.0003], [body.Miss.Along, body.Miss.Across, body.Miss.OutOfPlan]);
    }

    [Theory]
    [InlineData("pinbed-1/r0003.json", 0.0924, 2, 1)]
    [InlineData("veerack-2/r0002.json", 0.08, 1, 0)]
    [InlineData("rollers-3/r0002.json", 0.11, 0, 0)]
    public void The_prediction_is_where_a_locate_without_stand_off_would_be_served(string file, double diameter, int column, int row)
    {
        var demo = Revisions.Demo(file);
        var fixture = file.Split('/')[0];
        var bench = new Bench(new FixtureFolder(fixture, [demo], []));
        bench.OfFolders();
        var revision = bench.Situation.Find(fixture)!.InForce!;
        var served = bench.Locate(diameter, fixture, column: column, row: row);
        var clear = revision.Nest;
        Assert.Equal(Stockseat.Seating.Seats.SeatFault.None,
            Stockseat.Seating.Seats.SeatSolver.TryClear(clear, diameter / 2, revision.StandOffPickMetres, out var off));
        Assert.Equal(Stockseat.Seating.Seats.SeatFault.None, Stockseat.Seating.Seats.SeatSolver.TrySeat(clear, diameter / 2, out var seat));
        var lift = revision.Frame.ToBase(off.Centre - seat.Centre);

        var body = Recheck(bench, diameter, default, column, row, fixture: fixture);

        Near([served.Position[0] - lift.X, served.Position[1] - lift.Y, served.Position[2] - lift.Z], body.Predicted);
    }

    [Theory]
    [InlineData(0.00049, true)]
    [InlineData(0.0005, true)]
    [InlineData(0.000501, false)]
    public void With_a_limit_the_length_of_the_miss_counts_whatever_the_uncertainty(double out0, bool passes)
    {
        var bench = Bench.Serving(Revisions.Good(limits: """{ "recheck": "0.5 mm" }""", extra: Known));

        // Out of the plan, where no uncertainty is stated.
        var body = Recheck(bench, 0.08, new(0, 0, out0));

        Assert.Equal((0.0005, passes), (body.Limit, body.Passed));
        Near([0, 0, out0], [body.Miss.Along, body.Miss.Across, body.Miss.OutOfPlan]);
    }

    [Theory]
    [InlineData(0.00019, 0.00019, true)]
    [InlineData(-0.00019, -0.00019, true)]
    [InlineData(0.00021, 0, false)]
    [InlineData(0, -0.00021, false)]
    public void Without_a_limit_each_direction_of_the_plan_is_judged_by_its_uncertainty(double x, double y, bool passes)
    {
        // Only the robot contributes, 0.1 mm standard in each direction; the stated diameter has no uncertainty: U is 0.2 mm in both directions.
        var body = Recheck(Bench.Serving(Revisions.Good(extra: Known)), 0.08, new(x, y, 0.01));

        Near([0.0002, 0.0002], [body.Expected!.Along, body.Expected.Across]);
        Assert.Equal((null, passes), (body.Limit, body.Passed));
    }

    [Fact]
    public void Without_a_limit_or_an_uncertainty_a_recheck_is_recorded_and_not_judged()
    {
        var bench = Bench.Serving(Revisions.Good());

        var body = Recheck(bench, 0.08, new(0.01, 0, 0), within: 0.000002, refuse: true);

        Assert.Equal((null, null, null, false), (body.Expected, body.Limit, body.Passed, body.Refuses));
        Assert.Null(bench.Situation.Find("pinbed-1")!.Missed);
        Assert.DoesNotContain("passed", System.Text.Encoding.UTF8.GetString(Bench.Bytes(body)), StringComparison.Ordinal);
    }

    [Fact]
    public void The_masters_own_limit_of_error_takes_precedence_over_that_of_an_asked_diameter()
    {
        // Two pins, at the taught diameter: along, a diameter's error acts with 0.5 / cos θ, sin θ = 30/46. 0.1 mm rectangular is 0.057735 mm standard.
        var bench = Bench.Serving(Revisions.Good(extra: Known));
        var along = 2 * Math.Sqrt(1e-8 + Math.Pow(0.0001 / Math.Sqrt(3) * 0.5 / Math.Sqrt(1 - (30.0 * 30 / (46.0 * 46))), 2));

        var body = Recheck(bench, 0.08, default, within: 0.0001);

        Near([along, 0.0002], [body.Expected!.Along, body.Expected.Across]);
        Assert.Equal(0.0001, body.MasterWithin);
        Assert.Null(Recheck(Bench.Serving(Revisions.Good(extra: """ "uncertainty": { "robot": "0.1 mm" }, """)), 0.08, default).Expected);
    }

    [Fact]
    public void Everything_stated_in_the_ask_is_in_the_entry()
    {
        var bench = Bench.Serving(Revisions.Good(limits: """{ "recheck": "0.5 mm" }"""));
        var body = Assert.IsType<RecheckBody>(bench.Do(Ask(0.08, new(0.001, 0, 0), refuse: true) with { Note = "after the crash" }));

        Assert.Equal(("pinbed-1", 1, "setter", "after the crash", 0.08, "bench", "r-1"),
            (body.Fixture, body.Revision, body.By, body.Note, body.Master, body.Client, body.Request));
        Assert.Equal(bench.Situation.Find("pinbed-1")!.InForce!.Digest, body.Digest);
        Assert.Equal([0.001, 0, 0], body.Found);
        Assert.True(body.RefuseAfterMiss && body.Refuses);
        Near([0.001], [body.Length]);
    }

    [Fact]
    public void A_recheck_that_can_not_be_compared_is_refused_like_a_locate_and_its_entry_has_all_inputs()
    {
        var bench = Bench.Serving(Revisions.Good(limits: """{ "diameter": ["70 mm", "90 mm"] }"""));
        bench.Refused(Reason.FixtureUnknown, Ask(0.08, default, fixture: "pinbed-9"));
        bench.Refused(Reason.NestUnknown, Ask(0.08, default, column: 1));
        bench.Refused(Reason.DiameterAboveEnvelope, Ask(0.0901, default));
        bench.Refused(Reason.NotPermitted, Ask(0.08, default, fixture: "pinbed-9") with { Denied = Refusal.Of(Reason.NotPermitted, "no") });

        var refused = bench.Refused(Reason.DiameterBelowEnvelope, Ask(0.0699, new(1, 2, 3), within: 0.00001) with { Note = "n" });

        Assert.Equal(("setter", "n", 0.0699, 0.00001, 1), (refused.By, refused.Note, refused.Diameter, refused.MasterWithin, refused.Revision));
        Assert.Equal([1, 2, 3], refused.Found!);
        Assert.Equal([0, 0], refused.Nest!);

        var waiting = new Bench(Revisions.Folder(Revisions.Good()));
        waiting.OfFolders(FirstAdoption.Manual);
        waiting.Refused(Reason.CalibrationUnusable, Ask(0.08, default));
        bench.ReadFolders();
        bench.Refused(Reason.FixtureWithdrawn, Ask(0.08, default));
    }

    [Fact]
    public void A_held_fixture_can_be_rechecked()
    {
        var bench = Bench.Serving(Revisions.Good());
        bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "at it" });

        Recheck(bench, 0.08, default);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_miss_shows_and_with_that_setting_refuses_asks_until_another_revision_is_adopted(bool refuse)
    {
        var bench = Bench.Serving(Revisions.Good(limits: """{ "recheck": "0.5 mm" }"""));
        var miss = Recheck(bench, 0.08, new(0, 0.0006, 0), refuse: refuse);
        Recheck(bench, 0.08, default, refuse: false);
        bench.ReadFolders(Revisions.Folder(Revisions.Good(limits: """{ "recheck": "0.5 mm" }"""), Revisions.Good(2)));
        Assert.IsType<RevisionAdoptedBody>(bench.Adopt(1));
        bench.Restart();

        Assert.Equal(miss.Serial, bench.Situation.Find("pinbed-1")!.Missed!.Serial);
        if (refuse)
        {
            var refused = bench.Refused(Reason.RecheckFailed, 0.08);
            Assert.Contains($"recheck {miss.Serial} found a master in nest 0,0 of pinbed-1 0.600 mm from where revision 1 predicts it", refused.Text,
                StringComparison.Ordinal);
            Assert.Contains("limits.recheck is 0.500 mm; calibrate the fixture and adopt a new revision", refused.Text, StringComparison.Ordinal);
            Assert.Equal(("0.000600", $"{miss.Serial}"), (refused.Limits!["miss_metres"], refused.Limits["serial"]));
        }
        else
        {
            bench.Locate(0.08);
        }

        Assert.IsType<RevisionAdoptedBody>(bench.Adopt(2));
        Assert.Null(bench.Situation.Find("pinbed-1")!.Missed);
        bench.Locate(0.08);
    }

    [Fact]
    public void The_entry_says_whether_it_refuses_and_a_later_miss_that_does_not_cancels_nothing()
    {
        var bench = Bench.Serving(Revisions.Good(limits: """{ "recheck": "0.5 mm" }"""));
        Recheck(bench, 0.08, new(0, 0.001, 0));
        bench.Locate(0.08);
        var refusing = Recheck(bench, 0.08, new(0, 0.002, 0), refuse: true);
        Recheck(bench, 0.08, new(0, 0.003, 0));

        Assert.Equal(refusing.Serial, bench.Situation.Find("pinbed-1")!.Missed!.Serial);
        bench.Refused(Reason.RecheckFailed, 0.08);
        var newer = Recheck(bench, 0.08, new(0, 0.004, 0), refuse: true);
        Assert.Equal(newer.Serial, bench.Situation.Find("pinbed-1")!.Missed!.Serial);
    }

    private static RecheckAsk Ask(double master, Vector3 found, int column = 0, int row = 0, double? within = null, bool refuse = false,
        string fixture = "pinbed-1") =>
        new(Bench.Controller, fixture) { By = "setter", MasterMetres = master, FoundMetres = found, Column = column, Row = row, WithinMetres = within,
            RefuseAfterMiss = refuse };

    private static RecheckBody Recheck(
        Bench bench, double master, Vector3 found, int column = 0, int row = 0, double? within = null, bool refuse = false, string fixture = "pinbed-1") =>
        Assert.IsType<RecheckBody>(bench.Do(Ask(master, found, column, row, within, refuse, fixture)));

    private static void Near(double[] expected, double[] found)
    {
        Assert.Equal(expected.Length, found.Length);
        Assert.All(expected.Zip(found), p => Assert.InRange(p.Second, p.First - 1e-9, p.First + 1e-9));
    }
}
