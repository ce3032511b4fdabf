using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Seating.Frames;

namespace Stockseat.Audit.Explaining;

/// <summary>Collects the lines of a section. Each method returns its value, so that the next line continues with the value shown.</summary>
/// <param name="title">The section's title.</param>
internal sealed class Steps(string title)
{
    /// <summary>The unit of lengths.</summary>
    public const string Metre = "m";

    /// <summary>The unit of angles.</summary>
    public const string Degree = "deg";

    /// <summary>The unit of ages.</summary>
    public const string Second = "s";

    /// <summary>The unit of masses.</summary>
    public const string Kilogram = "kg";

    /// <summary>The unit of numbers, and of angles in radians.</summary>
    public const string One = "1";

    private readonly List<WorkingLine> _lines = [];

    /// <summary>The section so far.</summary>
    public WorkingSection Section => new(title, [.. _lines]);

    /// <summary>A sentence.</summary>
    public void Say(string text) => _lines.Add(new("", text, "", [], ""));

    /// <summary>An input.</summary>
    public double Given(string symbol, string text, string unit, double value) => Make(symbol, text, "", unit, value);

    /// <summary>An input with two components in the plan: u, v.</summary>
    public PlanVector Given(string symbol, string text, string unit, PlanVector value) => Make(symbol, text, "", unit, value);

    /// <summary>An input with three components: x, y, z.</summary>
    public Vector3 Given(string symbol, string text, string unit, Vector3 value) => Make(symbol, text, "", unit, value);

    /// <summary>A number that was computed.</summary>
    public double Make(string symbol, string text, string formula, string unit, double value)
    {
        Add(symbol, text, formula, unit, value);
        return value;
    }

    /// <summary>A vector of the plan that was computed: u, v.</summary>
    public PlanVector Make(string symbol, string text, string formula, string unit, PlanVector value)
    {
        Add(symbol, text, formula, unit, value.U, value.V);
        return value;
    }

    /// <summary>A vector in base, or in the origin's axes, that was computed.</summary>
    public Vector3 Make(string symbol, string text, string formula, string unit, Vector3 value)
    {
        Add(symbol, text, formula, unit, value.X, value.Y, value.Z);
        return value;
    }

    /// <summary>A line with any number of components; when one is not finite, it becomes a sentence.</summary>
    public void Add(string symbol, string text, string formula, string unit, params ReadOnlySpan<double> values)
    {
        double[] shown = [.. values];
        shown.AsSpan().Replace(-0.0, 0.0); // == is true for both zeros, so this removes a negative zero
        if (shown.Length > 0 && shown.All(double.IsFinite))
        {
            _lines.Add(new(symbol, text, formula, shown, unit));
        }
        else
        {
            Say($"{symbol}: {text}: not a number that can be shown");
        }
    }

    /// <summary>A value compared with its limit: both, and how far the value is above it.</summary>
    /// <param name="symbol">The value's symbol.</param>
    /// <param name="value">The value.</param>
    /// <param name="limitSymbol">The limit's symbol.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="unit">The unit of both.</param>
    /// <param name="most">Whether the limit is the most that is allowed; else it is the least.</param>
    /// <param name="slack">How far beyond the limit the decision tolerates, for rounding.</param>
    public void Compare(string symbol, double value, string limitSymbol, double limit, string unit, bool most = true, double slack = 0)
    {
        var over = value - limit;
        var holds = most ? over <= slack : over >= -slack;
        var relation = over > 0 ? $"{symbol} is larger than {limitSymbol}"
            : over < 0 ? $"{symbol} is smaller than {limitSymbol}" : $"{symbol} is equal to {limitSymbol}";
        var rounded = holds && (most ? over > 0 : over < 0) ? ", by no more than rounding" : "";
        Add(
            $"{symbol} - {limitSymbol}", $"{relation}{rounded}: {(holds ? "within" : "beyond")} what is allowed ({(most ? "at most" : "at least")} "
                + $"{limitSymbol})", $"{symbol} - {limitSymbol}", unit, over);
    }

    /// <summary>A whole number, the same in every culture.</summary>
    public static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Radians in degrees.</summary>
    public static double Degrees(double radians) => radians * 180 / Math.PI;

    /// <summary>Three components of a body; null when the body does not have exactly three.</summary>
    public static Vector3? Three(double[]? values) => values is { Length: 3 } ? new(values[0], values[1], values[2]) : null;

    /// <summary>The nest of a body; null when the body has none.</summary>
    public static (int Column, int Row)? Nest(int[]? values) => values is { Length: 2 } ? (values[0], values[1]) : null;

    /// <summary>The instant of an entry; null when it has none that can be read.</summary>
    public static DateTimeOffset? Instant(string? at) =>
        DateTimeOffset.TryParse(at, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant) ? instant : null;

    /// <summary>Metres as in messages.</summary>
    public static string M(double metres) => Math.Abs(metres) < 1e6 ? FixedPoint.Text(metres) : metres.ToString("R", CultureInfo.InvariantCulture);
}
