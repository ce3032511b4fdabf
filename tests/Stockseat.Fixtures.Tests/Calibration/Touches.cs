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

    /// <summary>The tilted bed's u, v and w in base, one row for each of x, y and z.</summary>
    private static readonly double[][] Bedded = [[0.8, -0.576, 0.168], [0.6, 0.768, -0.224], [0, 0.28, 0.96]];

    /// <summary>
    /// The demo's rack stands at 30 deg: x = X + u cos 30° − v sin 30°, y = Y + u sin 30° + v cos 30°, with v = √2·R in its 90 deg vees, R = 34.925 mm at
    /// the taught origin (655, 180, 240) mm, nests 114.3 mm apart along u and 152.4 mm along v.
    /// </summary>
    public static string OfRack(int column, int row, double diameter, double du = 0, double dv = 0, double dw = 0, double degrees = 30) => Line(
        column, row, diameter, (655, 180, 240), Turned(degrees), (114.3 * column) + du,
        (152.4 * row) + (Math.Sqrt(2) * ((diameter / 2) - 34.925)) + dv, dw);

    /// <summary>
    /// The demo's bed is tilted: its u, v and w are (0.8, 0.6, 0), (−0.576, 0.768, 0.28) and (0.168, −0.224, 0.96) in base. Two pins 60 mm apart,
    /// 12 mm thick unless stated otherwise, taught with 80 mm at (412.3, −205, 118) mm; nests 125 mm apart along u and 130 mm along v.
    /// </summary>
    public static string OfBed(int column, int row, double diameter, double du = 0, double dv = 0, double dw = 0, double spacing = 60, double pin = 12) => Line(
        column, row, diameter, (412.3, -205, 118), Bedded, (125 * column) + du,
        (130 * row) + Rest(diameter, spacing, pin) - Rest(80, 60, 12) + dv, dw);

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
        new() { Number = 9, Note = new("2026-11-25T08:00:00Z", "day setter", "nests touched", "") };

    /// <summary>How high stock rests on two equal pins: √((R + r)² − (spacing/2)²).</summary>
    private static double Rest(double diameter, double spacing, double pin) =>
        Math.Sqrt(Math.Pow((diameter + pin) / 2, 2) - Math.Pow(spacing / 2, 2));

    /// <summary>The plan's axes in base, one row for each of x, y and z: base turned about z.</summary>
    private static double[][] Turned(double degrees)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        return [[cos, -sin, 0], [sin, cos, 0], [0, 0, 1]];
    }

    private static string Line(
        int column, int row, double diameter, (double X, double Y, double Z) at, double[][] axes, double u, double v, double w)
    {
        double Along(double[] axis) => (u * axis[0]) + (v * axis[1]) + (w * axis[2]);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"\"{column},{row}\",{diameter},{at.X + Along(axes[0]):F10},{at.Y + Along(axes[1]):F10},{at.Z + Along(axes[2]):F10}\n");
    }
}
