using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Positions;

public sealed class EnvelopeTests
{
    private const string Vee = """{ "vee": { "includedAngle": "90 deg", "faceFrom": "20 mm", "faceTo": "60 mm" } }""";

    // The centre runs along the bisector of the two pins and leaves the space above them at R + r = 100 mm.
    private const string Lopsided = """
        { "locators": [ { "pin": { "u": "-30 mm", "v": "0 mm", "diameter": "12 mm" } }, { "pin": { "u": "30 mm", "v": "20 mm", "diameter": "12 mm" } } ] }
        """;

    [Theory]
    [InlineData(0.0599999, Reason.DiameterBelowEnvelope, "0.060000")]
    [InlineData(0.1000001, Reason.DiameterAboveEnvelope, "0.100000")]
    public void The_stated_range(double diameter, Reason reason, string limit) =>
        Refused(Revisions.Good(limits: """{ "diameter": [ "60 mm", "100 mm" ] }"""), diameter, reason, "stated-range", limit);

    [Theory]
    [InlineData(0.06)]
    [InlineData(0.1)]
    public void The_ends_of_the_stated_range_are_served(double diameter) =>
        Assert.Equal(diameter, Bench.Serving(Revisions.Good(limits: """{ "diameter": [ "60 mm", "100 mm" ] }""")).Locate(diameter).Diameter);

    [Fact]
    public void Stock_that_drops_between_the_pins() => // R + r <= a: 24 + 6 <= 30
        Refused(Revisions.Good(), 0.0479, Reason.DiameterBelowEnvelope, "no-seat", null);

    [Fact]
    public void A_sensitivity_above_the_limit() => // 1/cos(asin(30/33.5)) = 2.25
        Refused(Revisions.Good(limits: """{ "sensitivity": 2.0 }"""), 0.055, Reason.DiameterBelowEnvelope, "sensitivity", "2");

    [Fact]
    public void A_sensitivity_below_the_limit_is_served() => // 1/cos(asin(30/34.7)) = 1.99
        Bench.Serving(Revisions.Good(limits: """{ "sensitivity": 2.0 }""")).Locate(0.0574);

    [Fact]
    public void A_held_angle_below_the_limit() => // asin(30/48.5) = 38.2 deg
        Refused(Revisions.Good(limits: """{ "heldAngle": "40 deg" }"""), 0.085, Reason.DiameterAboveEnvelope, "held-angle", "40");

    [Fact]
    public void The_held_angle_is_5_degrees_unless_stated() // asin(30/346) = 4.97 deg
    {
        Refused(Revisions.Good(), 0.680, Reason.DiameterAboveEnvelope, "held-angle", "5");
        Bench.Serving(Revisions.Good()).Locate(0.670);
    }

    [Theory]
    [InlineData(0.0398, Reason.DiameterBelowEnvelope, "0.020000")]
    [InlineData(0.1202, Reason.DiameterAboveEnvelope, "0.060000")]
    public void A_contact_beyond_the_end_of_a_face(double diameter, Reason reason, string end) => // a 90 degree vee touches at R from its apex
        Refused(Revisions.Good(nest: Vee), diameter, reason, "face-extent", end);

    [Fact]
    public void Stock_that_would_roll_off_is_refused() =>
        Refused(Revisions.Good(nest: Lopsided, limits: """{ "heldAngle": "0 deg" }"""), 0.2, Reason.DiameterAboveEnvelope, "no-seat", null);

    [Fact]
    public void Stock_that_can_not_be_placed_with_the_stand_off_is_refused() =>
        Refused(Revisions.Good(nest: Lopsided, limits: """{ "heldAngle": "0 deg" }"""), 0.1878, Reason.DiameterAboveEnvelope, "no-seat", null);

    [Fact]
    public void A_shift_above_the_limit_shows_the_limit_and_the_last_diameter_within_it()
    {
        var body = Bench.Serving(Revisions.Good(limits: """{ "shift": "40 mm" }""")).Refused(Reason.ShiftAboveLimit, 0.17);

        // (R + g + r)² = (√(46² − 30²) + 40)² + 30²
        var end = 2 * (Math.Sqrt(Math.Pow(Math.Sqrt((0.046 * 0.046) - 0.0009) + 0.040, 2) + 0.0009) - 0.006 - 0.0003);
        Assert.Equal(("shift", "0.040000"), (body.Limits!["constraint"], body.Limits["limit"]));
        Assert.Equal(end, double.Parse(body.Limits["end_metres"], System.Globalization.CultureInfo.InvariantCulture), 1.5e-6);
    }

    /// <summary>8 kg of 7850 kg/m³ and 100 mm: D = √(8 / (7850·0.1·π/4)) = 113.9 mm.</summary>
    [Fact]
    public void Stock_that_is_too_heavy_is_reported_as_such()
    {
        var file = Revisions.Good(extra: """ "stock": { "density": "7850 kg/m3", "length": "100 mm" }, """, limits: """{ "payload": "8 kg" }""");
        var body = Bench.Serving(file).Refused(Reason.MassAboveLimit, 0.114);

        Assert.Equal(("payload", "8"), (body.Limits!["constraint"], body.Limits["limit"]));
        Assert.Equal(Math.Sqrt(8 / (7850 * 0.1 * Math.PI / 4)), double.Parse(body.Limits["end_metres"], System.Globalization.CultureInfo.InvariantCulture),
            1.5e-6);
        Bench.Serving(file).Locate(0.1139);
    }

    /// <summary>Jaws of 20 mm that open by 12 mm, directly towards the nest 125 mm away.</summary>
    [Fact]
    public void A_gap_is_reported_with_both_bodies()
    {
        const string Jaws =
            """ "gripper": { "jaws": 2, "jawWidth": "10 mm", "jawThickness": "20 mm", "clocking": "0 deg", "openBy": "12 mm","""
            + """ "stroke": [ "10 mm", "300 mm" ] }, """;
        var file = Revisions.Good(extra: Jaws, layout: """[ { "direction": "u", "count": 2, "pitch": "125 mm" } ]""", limits: """{ "gap": "2 mm" }""");
        var body = Bench.Serving(file).Refused(Reason.DiameterAboveEnvelope, 0.0975);

        // 125 − D/2 = D/2 + 6 + 20 + 2 where the jaw's face is flat before the round stock; its corners are further away
        Assert.Equal("gap", body.Limits!["constraint"]);
        Assert.Equal(0.097, double.Parse(body.Limits["end_metres"], System.Globalization.CultureInfo.InvariantCulture), 2e-6);
        Assert.Matches("jaw [12] \\(open\\) to stock of nest -?1,0 would be less than the 2 mm wanted", body.Text);
    }

    /// <summary>An older version adopted it. The fault shows at the start, in status and in lists, not only when somebody asks.</summary>
    [Fact]
    public void A_revision_in_force_that_allows_no_diameter_refuses_every_ask()
    {
        var file = Revisions.Demo("veerack-2/r0001.json");
        FixtureState State(Revision? inForce) =>
            Situation.Empty.With(new FixtureState("veerack-2") { InForce = inForce?.Prepare(), Folder = Revisions.Folder(file) }).Find("veerack-2")!;
        var state = State(file.Reading.Revision);

        Assert.Equal(Reason.CalibrationUnusable, state.Refused!.Reason);
        Assert.StartsWith("revision 1 of veerack-2 does not hold its own taught diameter of 69.850 mm for a pick: jaw 2 (closed) to face 1 would overlap",
            state.Refused.Text, StringComparison.Ordinal);
        Assert.Null(State(Revisions.Demo("veerack-2/r0002.json").Reading.Revision).Refused);
    }

    [Theory]
    [InlineData(0.0479)]
    [InlineData(0.680)]
    public void A_push_outside_the_envelope_is_refused_at_once(double diameter)
    {
        var bench = Bench.Serving(Revisions.Good());

        var body = Assert.IsType<RefusalBody>(bench.Measure(diameter));

        Assert.StartsWith("diameter-", body.Reason, StringComparison.Ordinal);
        Assert.Equal([diameter], body.Readings!);
    }

    private static void Refused(RevisionFile file, double diameter, Reason reason, string constraint, string? limit)
    {
        var body = Bench.Serving(file).Refused(reason, diameter);

        Assert.Equal(constraint, body.Limits!["constraint"]);
        Assert.Equal(FixedPoint.Text(diameter), body.Limits["diameter_metres"]);
        Assert.Equal(limit, body.Limits.GetValueOrDefault("limit"));
        Assert.Equal((diameter, "pick"), (body.Diameter, body.Purpose));
    }
}
