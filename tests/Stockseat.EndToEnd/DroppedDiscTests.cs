using System.Globalization;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>
/// Discs that fall in a world with gravity come to rest where the service says that stock is seated. Source: planck.js, a general-purpose 2D physics
/// library; it lets shapes overlap or keep apart by its slop, 0.05 mm at the scale used here, so twice that, times the vee's and the pins' sensitivity,
/// is the tolerance.
/// </summary>
public sealed class DroppedDiscTests() : OnBothBuilds(Build.Ordinary)
{
    private const double Tolerance = 0.0002;

    [Theory]
    [InlineData("pinbed-1", """{"spacing":0.06,"diameter":0.012}""", 0.080, 0.0003, 0.062, 0.098, "-0.576 0.768 0.28")]
    [InlineData("veerack-2", """{"angle":90}""", 0.06985, 0.000254, 0.045, 0.090, "-0.5 0.866025403784439 0")]
    public async Task Discs_come_to_rest_where_stock_is_served(
        string fixture, string nest, double taught, double standOff, double least, double greatest, string seatAxis)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var diameters = Enumerable.Range(0, 8).Select(_ => Math.Round(least + ((greatest - least) * Random.Shared.NextDouble()), 5)).ToArray();
        var axis = seatAxis.Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray();

        string[] radii = [Radius(taught), .. diameters.Select(d => Radius(d + (2 * standOff)))];
        var run = await Node.Run("drop_discs.js", [nest, .. radii]);
        var rest = run.Exits(0).Object.GetProperty("rest").EnumerateArray().Select(p => p[1].GetDouble()).ToArray();

        for (var i = 0; i < diameters.Length; i++)
        {
            var answer = (await service.Ask("locate", fixture, "--diameter", $"{Text(diameters[i] * 1000)}mm", "--json")).Exits(0).Object;
            var shift = answer.GetProperty("shiftBase").EnumerateArray().Select((n, k) => n.GetDouble() * axis[k]).Sum();
            Assert.True(
                Math.Abs(rest[i + 1] - rest[0] - shift) <= Tolerance,
                $"{Text(diameters[i])} m: the disc came to rest {Text(rest[i + 1] - rest[0])} from the taught one, {Text(shift)} was served");
        }
    }

    private static string Radius(double diameter) => Text(diameter / 2);

    private static string Text(double number) => number.ToString("0.########", CultureInfo.InvariantCulture);
}
