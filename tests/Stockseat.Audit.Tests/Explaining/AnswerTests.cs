using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Tests.Support;
using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

public sealed class AnswerTests
{
    private static Bench Good => Bench.Serving(Revisions.Good());

    [Fact]
    public void Sections_follow_the_order_of_the_decision()
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        bench.Locate(0.0924);

        Assert.Equal(
            [
                "Inputs", "Locators of the nest", "Seat at the taught diameter", "Seat at the diameter used", "Centre with the stand-off", "Shift in the plan",
                "Shift and position in base",
                "Envelope and limits", "First run or not", "What moves the centre", "Uncertainty of nest 0,0", "Uncertainty of nest 5,0", "Uncertainty",
                "As served",
            ],
            Read.Last(bench).Sections.Select(s => s.Title));
    }

    [Fact]
    public void A_measured_diameter_is_traced_to_its_readings_and_has_an_age()
    {
        var bench = Good;
        bench.Measure(0.08004, 0.0800, 0.0801, 0.08006);
        bench.Now += TimeSpan.FromMinutes(5);
        bench.Locate();

        var working = Read.Last(bench);

        Assert.Equal((0.08004, 0.0800, 0.0801), (working.Value("Inputs", "d1"), working.Value("Inputs", "d2"), working.Value("Inputs", "d3")));
        Assert.Equal(0.08005, working.Value("Inputs", "D"), 1e-15);
        Assert.Equal((300, 28800, -28500), (working.Value("Inputs", "age"), working.Value("Inputs", "fresh"), working.Value("Inputs", "age - fresh")));
        Assert.Equal("s", working.Section("Inputs").Line("age").Unit);
    }

    [Theory]
    [InlineData(0.00005, "s(gauge) / sqrt(3)")]
    [InlineData(null, "s(readings) / sqrt(3)")]
    public void The_formula_of_the_repeatability_says_where_it_comes_from(double? stated, string formula)
    {
        // No gauge judged their spread, and no repeatability is stated: the readings' own spread counts. 0.03, 0, -0.03 mm from their mean.
        var bench = Bench.Serving(Revisions.Good(extra: """ "uncertainty": { "teaching": "0.1 mm" }, """));
        bench.Do(Bench.Push([0.08003, 0.08, 0.07997], agreement: null) with
        {
            Terms = new("bench-2", null, TimeSpan.FromHours(8)) { Limits = new() { LimitsOfError = 0.00003, Repeatability = stated } },
        });
        bench.Locate();

        var working = Read.Last(bench);

        Assert.Equal(0.00003, working.Value("Inputs", "s(readings)"), 1e-15);
        Assert.Equal(formula, working.Section("Uncertainty of nest 0,0").Line("a(repeatability)").Formula);
        Assert.Equal((stated ?? 0.00003) / Math.Sqrt(3), working.Value("Uncertainty of nest 0,0", "a(repeatability)"), 1e-15);
        Assert.Equal("E(gauge)", working.Section("Uncertainty of nest 0,0").Line("a(gauge)").Formula);
    }

    [Fact]
    public void A_stated_diameter_says_so_and_the_client_that_asked_is_named()
    {
        var bench = Good;
        bench.Locate(0.09);

        var words = Read.Last(bench).Words();

        Assert.Contains("which the client stated", words, StringComparison.Ordinal);
        Assert.Contains("Asked by bench, cell demo, from 127.0.0.1:4000, tag 17, request r-1.", words, StringComparison.Ordinal);
        Assert.Contains("Revision 1 of pinbed-1 was in force, adopted by entry 1.", words, StringComparison.Ordinal);
    }

    [Fact]
    public void The_limits_of_the_ask_are_compared()
    {
        var bench = Good;
        bench.Do(new LocateAsk(Bench.Controller, "pinbed-1")
        {
            DiameterMetres = 0.0803, NominalMetres = 0.08, WithinMetres = 0.001, Lot = "B2", LotTerms = new() { Nominal = 0.08, Plus = 0.0005, Minus = 0.0004 },
        });

        var working = Read.Last(bench);

        Assert.Equal(-0.0007, working.Value("Inputs", "|D - D_nominal| - within"), 1e-15);
        Assert.Equal(0.0007, working.Value("Inputs", "D - D_least(lot)"), 1e-15);
        Assert.Equal(-0.0002, working.Value("Inputs", "D - D_greatest(lot)"), 1e-15);
    }

    [Fact]
    public void A_first_answer_after_an_adoption_says_why()
    {
        var bench = Good;
        Assert.True(bench.Locate(0.09).First);

        Assert.Contains(
            "No pick at nest 0,0 was carried out (done) since the revision was adopted or a recheck missed",
            Read.Last(bench).Words(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0803, false)]
    [InlineData(0.0903, true)]
    public void After_that_the_distance_to_the_shift_carried_out_decides(double diameter, bool first)
    {
        var bench = Bench.Serving(Revisions.Good(limits: """{ "firstAbove": "1 mm" }"""));
        bench.CarryOut(bench.Locate(0.08));
        Assert.Equal(first, bench.Locate(diameter).First);

        var working = Read.Last(bench);

        static double V(double diameter) => Math.Sqrt(Math.Pow(diameter / 2 + 0.0003 + 0.006, 2) - 0.0009);
        Assert.Equal(4, working.Value("First run or not", "done"));
        Assert.Equal(V(diameter) - V(0.08), working.Value("First run or not", "|b - b_c|"), 1e-12);
        Assert.Equal(V(diameter) - V(0.08) - 0.001, working.Value("First run or not", "|b - b_c| - limits.firstAbove"), 1e-12);
        Assert.EndsWith(
            first ? "first=yes: it is to be run at reduced speed, with people clear." : "first=no.", working.Section("First run or not").Lines[^1].Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Numbers_are_shown_as_the_controller_received_them()
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.0924, Unit = ServedUnit.Millimetre, Decimals = 1 });

        var line = Read.Last(bench).Section("As served").Line("by");

        Assert.Equal(("by was served as 6.3", "m"), (line.Text, line.Unit));
        Assert.Equal(0.0063, Assert.Single(line.Values), 1e-15);
    }

    [Fact]
    public void An_unknown_uncertainty_says_why()
    {
        var bench = Good;
        bench.Locate(0.09);

        Assert.Contains("The uncertainty is not known: the revision states no uncertainty.", Read.Last(bench).Words(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_recorded_number_that_does_not_follow_is_reported()
    {
        var bench = Good;
        var answer = bench.Locate(0.09);

        var working = Working.Of(answer with { Position = [0, 0.5, 0] }, bench.Before(answer.Serial), null);

        Assert.Contains("The recorded position differs: 0.000000 0.500000 0.000000 m.", working.Words(), StringComparison.Ordinal);
    }
}
