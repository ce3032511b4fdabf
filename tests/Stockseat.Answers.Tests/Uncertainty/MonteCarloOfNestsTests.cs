using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Uncertainty;

/// <summary>
/// The propagation against the same Monte Carlo for nests and layouts that the demo does not have: turned faces, unequal locators, layouts along w and
/// against the axes.
/// </summary>
public class MonteCarloOfNestsTests
{
    private const int Count = 60_000;

    private const string Known = """
        "uncertainty": { "locatorDiameter": "0.05 mm", "locatorPosition": "0.1 mm", "locatorAngle": "0.3 deg", "frameAngle": "0.03 deg",
          "seating": { "standard": "0.03 mm" },
          "askedDiameter": "0.1 mm", "taughtDiameter": "0.05 mm", "lean": { "standard": "0.1 deg" }, "leanHeight": "30 mm" },
        """;

    private const string PinAndFace = """
        { "locators": [ { "pin": { "u": "-35 mm", "v": "-4 mm", "diameter": "20 mm" } }, { "face": { "u": "25 mm", "v": "-10 mm", "normal": "140 deg" } } ] }
        """;

    private const string FaceAndPin = """
        { "locators": [ { "face": { "u": "-25 mm", "v": "-10 mm", "normal": "50 deg" } }, { "pin": { "u": "35 mm", "v": "2 mm", "diameter": "12 mm" } } ] }
        """;

    private const string LopsidedVee = """
        { "locators": [ { "face": { "u": "-20 mm", "v": "12 mm", "normal": "30 deg" } }, { "face": { "u": "10 mm", "v": "5 mm", "normal": "110 deg" } } ] }
        """;

    private const string UnequalPins = """
        { "locators": [ { "pin": { "u": "-35 mm", "v": "6 mm", "diameter": "30 mm" } }, { "pin": { "u": "28 mm", "v": "-3 mm", "diameter": "10 mm" } } ] }
        """;

    public static TheoryData<string, string, int, int> Cases()
    {
        var cases = new TheoryData<string, string, int, int>();
        foreach (var nest in new[] { PinAndFace, FaceAndPin, LopsidedVee, UnequalPins })
        {
            cases.Add(nest, "[]", 0, 0);
            cases.Add(nest, """[ { "direction": "v", "count": 3, "pitch": "-150 mm" }, { "direction": "w", "count": 2, "pitch": "-400 mm" } ]""", 2, 1);
            cases.Add(nest, """[ { "direction": "w", "count": 2, "pitch": "300 mm" }, { "direction": "u", "count": 4, "pitch": "-130 mm" } ]""", 1, 3);
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Twice_the_draws_standard_deviation_is_U_within_two_percent(string nest, string layout, int column, int row)
    {
        var revision = Revisions.Good(nest: nest, layout: layout, extra: Known, taught: "\"measuredWith\": \"bench-2\",").Reading.Revision!;
        foreach (var from in new[] { null, new DiameterFrom { Gauge = "bench-2", Limits = new() { LimitsOfError = 2e-4, Resolution = 1e-4 } } })
        {
            var inputs = Certainty.Diameter(revision, from)!.Value;
            Assert.Equal(from is not null, inputs.SameGauge);

            var u = NestBudget.Of(revision, 0.097, 0, from, column, row)[0].Budget.Expanded;

            var (along, across) = new Draws(revision, 0.097, inputs, column, row, 2, 7).Deviations(Count);
            Assert.Equal(1, 2 * along / u.Along, 0.02);
            Assert.Equal(1, 2 * across / u.Across, 0.02);
        }
    }
}
