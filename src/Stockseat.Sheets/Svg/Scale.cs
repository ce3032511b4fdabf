using System.Globalization;

namespace Stockseat.Sheets.Svg;

/// <summary>A round scale of a drawing: 1, 2 or 5 times a power of ten, enlarging or reducing.</summary>
/// <param name="Paper">Millimetres on the paper …</param>
/// <param name="Real">… for this many millimetres of the real thing. One of the two is 1.</param>
public readonly record struct Scale(int Paper, int Real)
{
    private static readonly int[] Steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

    /// <summary>Millimetres on the paper for one metre.</summary>
    public double PerMetre => 1000.0 * Paper / Real;

    /// <summary>The largest round scale at which something fits.</summary>
    /// <param name="widthMetres">How wide it is, in metres.</param>
    /// <param name="heightMetres">How high it is, in metres.</param>
    /// <param name="paperWidth">The width in which it has to fit, in millimetres.</param>
    /// <param name="paperHeight">The height in which it has to fit, in millimetres.</param>
    public static Scale Fitting(double widthMetres, double heightMetres, double paperWidth, double paperHeight)
    {
        bool Fits(Scale scale) => widthMetres * scale.PerMetre <= paperWidth && heightMetres * scale.PerMetre <= paperHeight;
        var all = Steps.Reverse().Select(s => new Scale(s, 1)).Concat(Steps.Skip(1).Select(s => new Scale(1, s)));
        return all.Where(s => s.Paper <= 100).FirstOrDefault(Fits, new(1, Steps[^1]));
    }

    /// <summary>The largest of 1, 2 and 5 times a power of ten that is not above a value.</summary>
    public static double RoundBelow(double value)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(value) + 1e-9));
        return (value / power) switch { >= 5 - 1e-9 => 5, >= 2 - 1e-9 => 2, _ => 1 } * power;
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Paper}:{Real}");
}
