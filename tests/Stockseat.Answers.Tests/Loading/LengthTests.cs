using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Loading;

/// <summary>The stock's length: by how much the gripper's place follows it, and what is refused.</summary>
public sealed class LengthTests
{
    private const string Half = """ "grip": { "along": "w", "share": 0.5, "taughtLength": "120 mm", "within": "0.2 mm" }, """;

    private readonly Bench _bench = Bench.Serving(Revisions.Good(extra: Half, limits: """{ "length": "2 mm" }"""));

    [Fact]
    public void A_bar_against_a_stop_that_is_held_in_its_middle_moves_by_half_the_difference()
    {
        var bare = Bench.Serving(Revisions.Good()).Locate(0.09);
        _bench.Do(Bench.Push([0.09]) with { LengthMetres = 0.123 });

        var answer = _bench.Locate();

        Assert.Equal(0.123, answer.Length);
        Assert.Equal(bare.Position[2] + 0.0015, answer.Position[2], 1e-12);
        Assert.Equal((bare.Position[0], bare.Position[1]), (answer.Position[0], answer.Position[1]));
        Assert.Equal(0.0015, answer.ShiftBase[2], 1e-12);
    }

    [Fact]
    public void Its_uncertainty_is_that_of_the_length_times_the_share()
    {
        var bench = Bench.Serving(Revisions.Good(extra: Half + """ "uncertainty": { "askedDiameter": "0.05 mm", "taughtDiameter": "0.05 mm" }, """));
        bench.Do(Bench.Push([0.09]) with { LengthMetres = 0.123 });

        // A rectangular distribution of half width a has the standard uncertainty a/√3 (JCGM 100:2008, 4.3.7), k = 2.
        Assert.Equal(2 * 0.5 * 0.0002 / Math.Sqrt(3), bench.Locate().Uncertainty!.Normal!.Value, 1e-12);
    }

    [Fact]
    public void Without_a_length_and_beyond_the_limit_it_is_refused()
    {
        _bench.Measure(0.09);
        _bench.Refused(Reason.LengthMissing);
        var far = _bench.Refused(Reason.LengthAboveLimit, Bench.Push([0.09]) with { LengthMetres = 0.1241 });
        Assert.Contains("2.050 mm along the normal", far.Text, StringComparison.Ordinal);
        _bench.Refused(Reason.MeasurementMissing);
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.09]) with { LengthMetres = 0.124 }));
    }

    [Fact]
    public void A_stated_diameter_needs_its_own_length()
    {
        _bench.Do(Bench.Push([0.09]) with { LengthMetres = 0.123 });

        _bench.Refused(Reason.LengthMissing, 0.09);
        Assert.Equal(0.0005, _bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.09, LengthMetres = 0.121 }) is AnswerBody a
            ? a.ShiftBase[2] : 0, 1e-12);
    }

    [Fact]
    public void A_length_outside_its_lot_is_refused_with_the_slip_that_explains_it()
    {
        var terms = new LotTerms { Length = 0.12, LengthPlus = 0.001, LengthMinus = 0.001 };

        var refused = _bench.Refused(Reason.LengthOutsideLot, Bench.Push([0.09], lot: "A", terms: terms) with { LengthMetres = 0.012 });

        Assert.Contains("with its point one place to the right", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fixture_whose_position_does_not_follow_the_length_ignores_it()
    {
        var bench = Bench.Serving(Revisions.Good());
        bench.Do(Bench.Push([0.09]) with { LengthMetres = 0.123 });

        Assert.Equal((null, 0.0), (bench.Locate().Length, bench.Locate().ShiftBase[2]));
    }
}
