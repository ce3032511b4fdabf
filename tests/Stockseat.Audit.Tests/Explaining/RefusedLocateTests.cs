using System.Text.Json;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Explaining;
using Stockseat.Seating.Frames;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>The working of a refused locate ends with the comparison that refused it, or says that the ledger does not have its basis.</summary>
public sealed class RefusedLocateTests
{
    private const string Known = """ "uncertainty": { "teaching": "1 mm", "askedDiameter": "0.05 mm" }, """;

    private static Bench Good => Bench.Serving(Revisions.Good());

    /// <summary>Every reason that a decision of a locate can have.</summary>
    public static TheoryData<Reason> Reasons => new(
        Reason.NotPermitted, Reason.FixtureUnknown, Reason.FixtureWithdrawn, Reason.FixtureHeld, Reason.CalibrationUnusable, Reason.RevisionChanged,
        Reason.RecheckFailed, Reason.NestUnknown,
        Reason.DiameterMissing, Reason.MeasurementMissing, Reason.MeasurementStale, Reason.MeasurementOutsideLot, Reason.LotUnknown,
        Reason.DiameterBelowEnvelope, Reason.DiameterAboveEnvelope,
        Reason.ShiftAboveLimit, Reason.MassAboveLimit, Reason.UncertaintyAboveLimit);

    [Theory]
    [MemberData(nameof(Reasons))]
    public void Every_reason_ends_with_its_own_section(Reason reason)
    {
        var working = Read.Last(Refuse(reason));

        Assert.Equal("Inputs", working.Sections[0].Title);
        Assert.Equal("Why it was refused", working.Sections[^1].Title);
        Assert.Contains(ReasonInfo.Of(reason).Name, working.Sections[^1].Lines[0].Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Computed now", working.Words(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Reason.NotPermitted, "who may ask for what, which is in the configuration")]
    [InlineData(Reason.FixtureUnknown, "which fixture folders existed")]
    [InlineData(Reason.FixtureWithdrawn, "whether the folder of pinbed-1 was there")]
    [InlineData(Reason.RevisionChanged, "what the revision's file contained")]
    [InlineData(Reason.CalibrationUnusable, "which files its folder had")]
    public void Inputs_that_the_ledger_does_not_have_are_named(Reason reason, string what)
    {
        var verdict = Read.Last(Refuse(reason)).Verdict();

        Assert.Empty(verdict.Values);
        Assert.StartsWith("This depends on something that the ledger does not hold: " + what, verdict.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Reason.FixtureHeld, "holds - holds allowed", 1, "1")]
    [InlineData(Reason.NestUnknown, "column asked - last column", 7, "1")]
    [InlineData(Reason.MeasurementStale, "age - fresh", 60, "s")]
    [InlineData(Reason.MeasurementOutsideLot, "D - D_greatest(lot)", 0.0005, "m")]
    [InlineData(Reason.DiameterBelowEnvelope, "D - D_least", -0.02, "m")]
    [InlineData(Reason.DiameterAboveEnvelope, "D - D_greatest", 0.03, "m")]
    [InlineData(Reason.RecheckFailed, "|miss| - limits.recheck", 0.004, "m")]
    public void The_last_line_is_the_comparison(Reason reason, string symbol, double over, string unit)
    {
        var verdict = Read.Last(Refuse(reason)).Verdict();

        Assert.Equal((symbol, symbol, unit), (verdict.Symbol, verdict.Formula, verdict.Unit));
        Assert.Equal(over, Assert.Single(verdict.Values), 1e-9);
        Assert.Contains(over > 0 ? "is larger than" : "is smaller than", verdict.Text, StringComparison.Ordinal);
        Assert.Contains("beyond what is allowed", verdict.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_shift_above_its_limit_is_shown_as_it_would_be()
    {
        var working = Read.Last(Refuse(Reason.ShiftAboveLimit));

        // Two equal pins at 30 mm: v = sqrt((R + r)^2 - a^2).
        var shift = Math.Sqrt(Math.Pow(0.085 + 0.0003 + 0.006, 2) - 0.0009) - Math.Sqrt(0.046 * 0.046 - 0.0009);
        Assert.Equal(("|shift| - limit", "m"), (working.Verdict().Symbol, working.Verdict().Unit));
        Assert.Equal(shift - 0.040, working.Verdict().Values[0], 1e-12);
        Assert.Equal(shift, working.Value("Shift in the plan", "|shift|"), 1e-12);
    }

    [Fact]
    public void A_mass_above_its_limit_is_shown_as_it_is()
    {
        var working = Read.Last(Refuse(Reason.MassAboveLimit));

        Assert.Equal(("mass - limit", "kg"), (working.Verdict().Symbol, working.Verdict().Unit));
        Assert.Equal(7850 * Math.PI / 4 * 0.114 * 0.114 * 0.1 - 8, working.Verdict().Values[0], 1e-9);
    }

    [Fact]
    public void An_uncertainty_above_its_limit_shows_its_budget_and_no_position()
    {
        var working = Read.Last(Refuse(Reason.UncertaintyAboveLimit));

        // 1 mm of teaching alone makes 2 / sqrt(3) mm.
        Assert.Equal("U_recorded - limits.uncertainty", working.Verdict().Symbol);
        Assert.InRange(working.Verdict().Values[0], 0.001 * 2 / Math.Sqrt(3) - 0.0005, 0.0008);
        Assert.Equal(0.001 / Math.Sqrt(3), working.Value("Uncertainty of nest 0,0", "u(teaching)"), 1e-15);
        Assert.DoesNotContain(working.Sections, s => s.Title is "Shift and position in base" or "As served");
    }

    [Theory]
    [InlineData("", "the revision states no uncertainty")]
    [InlineData(""" "uncertainty": { "teaching": "0.1 mm" }, """, "askedDiameter is not stated")]
    public void An_unknown_uncertainty_says_why(string extra, string why)
    {
        var bench = Bench.Serving(Revisions.Good(extra: extra, limits: """{ "uncertainty": "0.5 mm" }"""));
        bench.Refused(Reason.UncertaintyAboveLimit, 0.09);

        var working = Read.Last(bench);

        Assert.Contains(why, working.Words(), StringComparison.Ordinal);
        Assert.StartsWith("U is not known", working.Verdict().Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Stock_that_drops_between_the_pins_is_shown_with_the_distance_it_reaches()
    {
        var bench = Good;
        bench.Refused(Reason.DiameterBelowEnvelope, 0.04);

        var seat = Read.Last(bench).Section("Seat at the diameter used");

        Assert.Equal(0.026 - 0.030, Assert.Single(seat.Line("rho - a").Values), 1e-15);
        Assert.Equal("The stock drops between the pins: there is no seat.", seat.Lines[^1].Text);
    }

    [Fact]
    public void After_a_step_back_of_the_clock_the_age_is_shown_as_unknown()
    {
        var bench = Good;
        bench.Measure(0.08);
        bench.Set(-30);
        bench.Refused(Reason.MeasurementStale);

        Assert.Equal("measurement - clock step", Read.Last(bench).Verdict().Symbol);
    }

    [Fact]
    public void A_measurement_of_another_lot_names_both()
    {
        var bench = Good;
        bench.Do(Bench.Push([0.08], "A1077"));
        bench.Refused(Reason.MeasurementOutsideLot, lot: "B2");

        Assert.Equal("Lot asked for: B2; lot measured: A1077: they are not the same.", Read.Last(bench).Verdict().Text);
    }

    [Fact]
    public void A_nominal_that_is_too_far_away_is_compared()
    {
        var bench = Good;
        bench.Refused(
            Reason.MeasurementOutsideLot, new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.085, NominalMetres = 0.08, WithinMetres = 0.001 });

        Assert.Equal("|D - D_nominal| - within", Read.Last(bench).Verdict().Symbol);
        Assert.Equal(0.004, Read.Last(bench).Verdict().Values[0], 1e-12);
    }

    /// <summary>A revision that an older version adopted and that does not even allow its taught diameter: jaws that reach into the rack.</summary>
    [Fact]
    public void A_revision_that_allows_no_diameter_is_explained_by_its_gap()
    {
        var file = Revisions.Demo("veerack-2/r0001.json");
        var revision = file.Reading.Revision!;
        var before = Situation.Empty.WithFolder(Revisions.Folder(file)).Apply(new RevisionAdoptedBody
        {
            Fixture = "veerack-2", Revision = 1, Digest = revision.Digest, By = "setter", Why = "start",
            Content = JsonDocument.Parse(revision.Content).RootElement, Serial = 1,
        });
        var refusal = Assert.IsType<RefusalBody>(
            Decision.Decide(new LocateAsk(Bench.Controller, "veerack-2") { DiameterMetres = 0.0762 }, before, Bench.Start, _ => null));

        var working = Working.Of(refusal, before, null);

        Sound.Check(working);
        Assert.Equal("calibration-unusable", refusal.Reason);
        Assert.Equal("gap - limits.gap", working.Verdict().Symbol);
        Assert.True(working.Verdict().Values[0] < 0);
    }

    private static Bench Refuse(Reason reason)
    {
        var bench = reason switch
        {
            Reason.CalibrationUnusable => new Bench(Revisions.Folder(Revisions.Good())),
            Reason.RecheckFailed => Bench.Serving(Revisions.Good(limits: """{ "recheck": "1 mm" }""")),
            Reason.DiameterBelowEnvelope => Bench.Serving(Revisions.Good(limits: """{ "diameter": [ "70 mm", "90 mm" ] }""")),
            Reason.DiameterAboveEnvelope => Bench.Serving(Revisions.Good(limits: """{ "diameter": [ "70 mm", "90 mm" ] }""")),
            Reason.ShiftAboveLimit => Bench.Serving(Revisions.Good(limits: """{ "shift": "40 mm" }""")),
            Reason.MassAboveLimit =>
                Bench.Serving(Revisions.Good(extra: """ "stock": { "density": "7850 kg/m3", "length": "100 mm" }, """, limits: """{ "payload": "8 kg" }""")),
            Reason.UncertaintyAboveLimit => Bench.Serving(Revisions.Good(extra: Known, limits: """{ "uncertainty": "0.5 mm" }""")),
            Reason.NestUnknown => Bench.Serving(Revisions.Good(layout: """[ { "direction": "u", "count": 3, "pitch": "300 mm" } ]""")),
            _ => Good,
        };
        Prepare(bench, reason);
        LocateAsk ask = new(Bench.Controller, reason == Reason.FixtureUnknown ? "pinbed-9" : "pinbed-1") { DiameterMetres = 0.08 };
        bench.Refused(reason, reason switch
        {
            Reason.NotPermitted => ask with { Denied = Refusal.Of(Reason.NotPermitted, "bench may not locate") },
            Reason.NestUnknown => ask with { Column = 9 },
            Reason.DiameterMissing => ask with { DiameterMetres = null, Purpose = Purpose.Place },
            Reason.MeasurementMissing or Reason.MeasurementStale => ask with { DiameterMetres = null },
            Reason.MeasurementOutsideLot => ask with { Lot = "B2", DiameterMetres = 0.081, LotTerms = new() { Nominal = 0.08, Plus = 0.0005, Minus = 0.0005 } },
            Reason.LotUnknown => ask with { Lot = "B2" },
            Reason.DiameterBelowEnvelope => ask with { DiameterMetres = 0.05 },
            Reason.DiameterAboveEnvelope => ask with { DiameterMetres = 0.12 },
            Reason.ShiftAboveLimit => ask with { DiameterMetres = 0.17 },
            Reason.MassAboveLimit => ask with { DiameterMetres = 0.114 },
            _ => ask,
        });
        return bench;
    }

    private static void Prepare(Bench bench, Reason reason)
    {
        switch (reason)
        {
            case Reason.FixtureWithdrawn: bench.ReadFolders(); break;
            case Reason.RevisionChanged: bench.ReadFolders(Revisions.Folder(Revisions.Good(limits: """{ "shift": "40 mm" }"""))); break;
            case Reason.FixtureHeld: bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "pins" }); break;
            case Reason.MeasurementStale:
                bench.Measure(0.08);
                bench.Now += TimeSpan.FromSeconds(8 * 3600 + 60);
                break;
            case Reason.RecheckFailed:
                // The master of the taught diameter belongs at the taught origin, which is 0,0,0 of the base.
                bench.Do(
                    new RecheckAsk(
                        Bench.Controller, "pinbed-1") { By = "setter", MasterMetres = 0.08, FoundMetres = new Vector3(0.003, 0.004, 0),
                        RefuseAfterMiss = true });
                break;
        }
    }
}
