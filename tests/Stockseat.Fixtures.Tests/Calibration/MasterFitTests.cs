using System.Text;
using Stockseat.Fixtures.Tests.Support;
using static Stockseat.Fixtures.Tests.Calibration.Touches;

namespace Stockseat.Fixtures.Tests.Calibration;

public sealed class MasterFitTests
{
    private static readonly (int Column, int Row)[] Four = [(0, 0), (5, 0), (0, 3), (5, 3)];

    [Fact]
    public void Another_pin_size_and_spacing_are_found_with_masters_of_several_diameters()
    {
        // Measured as on pins of 12.03 mm, 60.15 mm apart; touched to a micrometre.
        double[] masters = [55, 60, 70, 80, 90, 100];
        var rows = Table(masters.SelectMany(d => Four.Select(n => OfBed(n.Column, n.Row, d, spacing: 60.15, pin: 12.03))));
        var outcome = Calibrate(Bed, rows, Request() with { FitLocators = true, TouchingMetres = 1e-6 }, Wide(Repository.Text(Bed)));

        Assert.Empty(outcome.Faults);
        var (spacing, pin) = (outcome.Locators!.Parameters[0], outcome.Locators.Parameters[1]);
        Assert.Equal(("nest.pins.spacing", "nest.pins.diameter"), (spacing.Name, pin.Name));
        Assert.Equal((0.06, 0.012), (spacing.Drawing, pin.Drawing));
        Assert.Equal(0.06015, spacing.Value, 3e-6);
        Assert.Equal(0.01203, pin.Value, 5e-6);
        var text = Encoding.UTF8.GetString(outcome.Text!.Value.Span);
        Assert.Equal((1000 * spacing.Value).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture), Between(text, "\"spacing\": \"", " mm"));
        Assert.InRange(Repository.Good(text).Touched!.Fit.WorstMetres, 0, 2e-6);
    }

    [Fact]
    public void Another_vee_angle_is_found_with_two_masters()
    {
        // A vee of 91 deg: v = R / sin 45.5 deg; the touches differ from those of a 90 deg vee accordingly.
        static double More(double d) => (d / 2 / Math.Sin(45.5 * Math.PI / 180)) - (d / 2 * Math.Sqrt(2));
        (int Column, int Row)[] nests = [(0, 0), (4, 0), (0, 1), (4, 1)];
        var rows = Table(new[] { 50.0, 95.0 }.SelectMany(d => nests.Select(n => OfRack(n.Column, n.Row, d, dv: More(d)))));
        var text = Repository.Text(Rack).Replace(
            "\"locatorPosition\": \"0.004 in\",", "\"locatorPosition\": \"0.004 in\", \"locatorAngle\": \"1 deg\",", StringComparison.Ordinal);
        var outcome = Calibrate(Rack, rows, Request() with { FitLocators = true, TouchingMetres = 1e-6 }, text);

        Assert.Empty(outcome.Faults);
        Assert.Equal(91.0, Assert.Single(outcome.Locators!.Parameters).Value * 180 / Math.PI, 1e-2);
        Assert.Equal(
            91.0, double.Parse(
                Between(Encoding.UTF8.GetString(outcome.Text!.Value.Span), "\"includedAngle\": \"", " deg"),
                System.Globalization.CultureInfo.InvariantCulture), 1e-2);
    }

    [Fact]
    public void One_diameter_determines_neither_size_nor_spacing()
    {
        var outcome = Calibrate(Bed, Table(Four.Select(n => OfBed(n.Column, n.Row, 80))), Request() with { FitLocators = true, TouchingMetres = 1e-5 });

        Assert.Contains(
            "masters of 80 mm can't tell nest.pins.spacing and nest.pins.diameter apart; touch more masters", Assert.Single(outcome.Faults),
            StringComparison.Ordinal);
        Assert.Null(outcome.Text);
    }

    [Fact]
    public void Without_the_drawings_tolerance_nothing_is_fitted()
    {
        var text = Repository.Edit(Repository.Text(Bed), "\"locatorDiameter\": \"0.02 mm\",", "");
        var outcome = Calibrate(Bed, Table(Four.Select(n => OfBed(n.Column, n.Row, 80))), Request() with { FitLocators = true }, text);

        Assert.Contains("as uncertainty.locatorDiameter in revision 3", Assert.Single(outcome.Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void Sizes_of_single_locators_are_not_fitted()
    {
        const string Rollers = "rollers-3/r0002.json";
        var outcome = Calibrate(Rollers, Table("\"0,0\",80,100,200,300\n"), Request() with { FitLocators = true });

        Assert.Contains("only for nest.pins and nest.vee", Assert.Single(outcome.Faults), StringComparison.Ordinal);
    }

    /// <summary>Tolerances so wide that they carry no information.</summary>
    private static string Wide(string text) => Repository.Edit(
        Repository.Edit(text, "\"locatorDiameter\": \"0.02 mm\"", "\"locatorDiameter\": \"1 mm\""), "\"locatorPosition\": \"0.10 mm\"",
        "\"locatorPosition\": \"2 mm\"");

    private static string Between(string text, string before, string after)
    {
        var start = text.IndexOf(before, StringComparison.Ordinal) + before.Length;
        return text[start..text.IndexOf(after, start, StringComparison.Ordinal)];
    }
}
