using System.Globalization;
using System.Text;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Advising;

public sealed class TouchAdviceTests
{
    private static readonly (int Column, int Row)[] Six = [(0, 0), (1, 0), (2, 0), (0, 1), (1, 1), (2, 1)];

    /// <summary>Points that scatter as touches do, without an outlier.</summary>
    private static readonly double[] Scatter = [0.02, -0.03, 0.01, 0.03, -0.01, -0.02];

    [Fact]
    public void Nests_that_fit_and_carry_enough_information_give_no_advice() => Assert.Empty(Of(Touched(), frameAngle: "0.1 deg"));

    [Fact]
    public void A_nest_that_stands_out_although_within_the_limit_is_named() =>
        Assert.Contains("nest 1,1 stands out", Assert.Single(Of(Touched(i => i == 4 ? 0.45 : 0), frameAngle: "1 deg")).Text, StringComparison.Ordinal);

    [Fact]
    public void A_pitch_that_differs_from_the_drawing_is_reported_over_the_whole_layout()
    {
        // 0.1 mm a nest farther apart than the 125 mm drawn: 1.0008, and 0.5 mm over six.
        var finding = Assert.Single(Of(Touched(du: n => 0.1 * n.Column), frameAngle: "1 deg"));

        Assert.Equal("layout", finding.Where);
        Assert.Matches(@"pitch along u is 1\.000[6-9]\d* of the drawn one: a difference of 0\.[45]\d* mm over all 6", finding.Text);
    }

    [Fact]
    public void A_tilt_that_nobody_stated_is_reported() =>
        Assert.Equal("frame.normal", Assert.Single(Of(Touched(dw: n => 2.0 * n.Column), frameAngle: "1 deg")).Where);

    [Fact]
    public void A_fit_less_certain_than_the_revision_claims_is_reported()
    {
        var finding = Assert.Single(Of(Touched(), frameAngle: "0.0001 deg"));

        Assert.Equal("uncertainty.frameAngle", finding.Where);
        Assert.Contains("above the 0.0001 deg", finding.Text, StringComparison.Ordinal);
    }

    private static IEnumerable<Finding> Of(IEnumerable<string> nests, string frameAngle)
    {
        var text = Revisions.DemoText("pinbed-1/r0003.json")
            .Replace("\"seatAxis\": { \"x\": -0.576, \"y\": 0.768, \"z\": 0.28 }",
                $"\"touchedNests\": [ {string.Join(", ", nests)} ], \"originLimit\": \"9 mm\"", StringComparison.Ordinal)
            .Replace("\"frameAngle\": \"0.02 deg\"", $"\"frameAngle\": {{ \"standard\": \"{frameAngle}\" }}", StringComparison.Ordinal);
        var reading = RevisionReader.Read(Encoding.UTF8.GetBytes(text), "r0003.json", null, null);
        Assert.Empty(reading.Faults);
        return RevisionFindings.Of(reading, null, null, null, LengthUnit.Millimetre)
            .Where(f => f.Where is not null && (f.Where.StartsWith("frame", StringComparison.Ordinal) || f.Where is "layout" or "uncertainty.frameAngle"));
    }

    private static IEnumerable<string> Touched(Func<int, double>? dv = null, Func<(int Column, int Row), double>? du = null, Func<(int Column, int Row),
        double>? dw = null) =>
        Six.Select((n, i) =>
            Nest(n.Column, n.Row, Scatter[i] + (du?.Invoke(n) ?? 0), Scatter[5 - i] + (dv?.Invoke(i) ?? 0), dw?.Invoke(n) ?? Scatter[(i + 2) % 6]));

    /// <summary>
    /// A master of the taught 80 mm, so nothing but the pitch comes in. The demo's tilted bed has u (0.8, 0.6, 0), v (−0.576, 0.768, 0.28) and
    /// w (0.168, −0.224, 0.96) in base. Millimetres.
    /// </summary>
    private static string Nest(int column, int row, double du, double dv, double dw)
    {
        var (u, v) = ((125 * column) + du, (130 * row) + dv);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{{ \"column\": {column}, \"row\": {row}, \"diameter\": \"80 mm\", \"x\": \"{412.3 + (0.8 * u) - (0.576 * v) + (0.168 * dw):F4} mm\", "
                + $"\"y\": \"{-205 + (0.6 * u) + (0.768 * v) - (0.224 * dw):F4} mm\", \"z\": \"{118 + (0.28 * v) + (0.96 * dw):F4} mm\" }}");
    }
}
