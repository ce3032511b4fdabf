using System.Globalization;
using System.Text;
using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Reading;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Calibration;

/// <summary>Tables of touched nests, calculated with plane geometry and not with the code under test.</summary>
internal static class Touches
{
    public const string Rack = "veerack-2/r0002.json";
    public const string Bed = "pinbed-1/r0003.json";

    public const string Head = "nest,diameter [mm],x [mm],y [mm],z [mm]\n";

    /// <summary>
    /// The demo's rack is turned by 30 deg: x = X + u cos 30° − v sin 30°, y = Y + u sin 30° + v cos 30°, with v = √2·R in its 90 deg vees, R = 38.1 mm at the
    /// taught origin (655, 180, 240) mm, nests 114.3 mm apart along u and 152.4 mm along v.
    /// </summary>
    public static string OfRack(int column, int row, double diameter, double du = 0, double dv = 0, double dw = 0, double degrees = 30) => Line(
        column, row, diameter, 655, 180, 240 + dw, (114.3 * column) + du, (152.4 * row) + (Math.Sqrt(2) * ((diameter / 2) - 38.1)) + dv, degrees);

    /// <summary>
    /// The demo's bed is square to the base: two pins 60 mm apart, 12 mm thick unless stated otherwise, taught with 80 mm at (412.3, −205, 118) mm; 125 mm by
    /// 130 mm.
    /// </summary>
    public static string OfBed(int column, int row, double diameter, double du = 0, double dv = 0, double dw = 0, double spacing = 60, double pin = 12) => Line(
        column, row, diameter, 412.3, -205, 118 + dw, (125 * column) + du,
        (130 * row) + Rest(diameter, spacing, pin) - Rest(80, 60, 12) + dv, 0);

    public static IReadOnlyList<TouchedRow> Table(params IEnumerable<string> lines)
    {
        var faults = new Faults("touched.csv");
        var rows = TouchTable.Read(Encoding.UTF8.GetBytes(Head + string.Concat(lines)), faults);
        Assert.Empty(faults.All);
        return rows;
    }

    public static CalibrationOutcome Calibrate(string demo, IReadOnlyList<TouchedRow> rows, CalibrationRequest? request = null, string? text = null)
    {
        text ??= Repository.Text(demo);
        return Calibrator.Calibrate(Encoding.UTF8.GetBytes(text), Repository.Good(text), rows, "touched.csv", request ?? Request());
    }

    public static CalibrationRequest Request() =>
        new() { Number = 9, Note = new("2026-11-25T08:00:00Z", "setter on shift", "nests touched", "") };

    /// <summary>How high stock rests on two equal pins: √((R + r)² − (spacing/2)²).</summary>
    private static double Rest(double diameter, double spacing, double pin) =>
        Math.Sqrt(Math.Pow((diameter + pin) / 2, 2) - Math.Pow(spacing / 2, 2));

    private static string Line(int column, int row, double diameter, double x, double y, double z, double u, double v, double degrees)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        return string.Create(
            CultureInfo.InvariantCulture, $"\"{column},{row}\",{diameter},{x + (u * cos) - (v * sin):F10},{y + (u * sin) + (v * cos):F10},{z:F10}\n");
    }
}
