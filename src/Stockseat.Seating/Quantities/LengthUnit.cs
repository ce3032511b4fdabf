namespace Stockseat.Seating.Quantities;

/// <summary>
/// The unit in which people read lengths, and the one place that writes lengths for them. Every member takes metres. What machines get stays in metres and
/// is not written here.
/// </summary>
public sealed class LengthUnit
{
    private const double MetresOfInch = 0.0254;

    /// <summary>The most decimals that two lengths need to be told apart.</summary>
    private const int MostDecimals = 9;

    /// <summary>A gap that is short of a step of its last decimal by rounding alone is not shown a step smaller.</summary>
    private const double Slack = 1e-3;

    /// <summary>A number that was rounded up before, in metres, must not go up once more.</summary>
    private const double Noise = 1e-7;

    /// <summary>The power of ten that makes this unit of metres; null: inches.</summary>
    private readonly int? _exponent;

    private LengthUnit(string symbol, string name, int decimals, int? exponent) =>
        (Symbol, Name, Decimals, _exponent) = (symbol, name, decimals, exponent);

    /// <summary>Millimetres with 3 decimals: the micrometre that answers are served to.</summary>
    public static LengthUnit Millimetre { get; } = new("mm", "mm", 3, 3);

    /// <summary>Inches (25.4 mm exactly) with 4 decimals.</summary>
    public static LengthUnit Inch { get; } = new("in", "inches", 4, null);

    /// <summary>Metres with 6 decimals, in which refusals of older versions were written. Nobody chooses it; a replay has to find their text again.</summary>
    public static LengthUnit Metre { get; } = new("m", "m", 6, 0);

    /// <summary>The unit that goes with it for what bounds a diameter: older versions gave bounds in millimetres and everything else in metres.</summary>
    public LengthUnit OfBounds => this == Metre ? Millimetre : this;

    /// <summary>How it is written after a number: mm, in.</summary>
    public string Symbol { get; }

    /// <summary>How it is called without a number: "lengths in inches".</summary>
    public string Name { get; }

    /// <summary>How many decimals a length has.</summary>
    public int Decimals { get; }

    /// <summary>The unit that people chose by this symbol; null when it is none of theirs.</summary>
    public static LengthUnit? Find(string symbol) => symbol == Millimetre.Symbol ? Millimetre : symbol == Inch.Symbol ? Inch : null;

    /// <summary>The number with all its decimals: "92.400".</summary>
    /// <param name="metres">The length, in metres.</param>
    /// <param name="more">How many decimals more than usual; below 0 fewer.</param>
    public string Fixed(double metres, int more = 0) => Rounded.Text(Scaled(metres, Decimals + more), Of(metres), Decimals + more);

    /// <summary>The number with no more decimals than it needs: "92.4".</summary>
    public string Short(double metres, int more = 0) => Rounded.Trimmed(Fixed(metres, more));

    /// <summary>The number with all its decimals and its sign either way: "+0.400"; zero has no sign.</summary>
    public string Signed(double metres, int more = 0) => Rounded.Signed(Fixed(metres, more));

    /// <summary>The same with no more decimals than it needs: "+0.4".</summary>
    public string SignedShort(double metres, int more = 0) => Rounded.Signed(Short(metres, more));

    /// <summary>A length with its unit and no more decimals than it needs: "92.4 mm".</summary>
    public string Text(double metres) => $"{Short(metres)} {Symbol}";

    /// <summary>The same with all its decimals: "92.400 mm".</summary>
    public string FixedText(double metres) => $"{Fixed(metres)} {Symbol}";

    /// <summary>The number with its usual decimals, and with more where it needs them to be exact or not to read zero: the half of an odd tolerance.</summary>
    public string Fine(double metres)
    {
        // In inches nearly no length of a drawing in millimetres ends: one decimal more is as fine as a micrometre is.
        var text = Rounded.Trimmed(Fixed(metres, _exponent is null ? 1 : 3), Decimals);
        for (var more = 2; metres != 0 && IsZero(text) && Decimals + more <= MostDecimals; more++)
        {
            text = Fixed(metres, more);
        }

        return text;
    }

    /// <summary>The number rounded up to its last decimal: an uncertainty is never shown too small, nor as 0.</summary>
    public string Up(double metres) => Ceiling(metres, 0, Noise);

    /// <summary>The number rounded up to a decimal, but for what rounding alone put above it.</summary>
    /// <param name="metres">The length, in metres.</param>
    /// <param name="more">How many decimals more than usual; below 0 fewer.</param>
    /// <param name="slack">How far above a step counts as on it, as a share of a step.</param>
    public string Ceiling(double metres, int more, double slack = Slack) => Whole(Math.Ceiling(Scaled(metres, Decimals + more) - slack), more);

    /// <summary>The number rounded down to a decimal, but for what rounding alone put below it.</summary>
    public string Floor(double metres, int more, double slack = Slack) => Whole(Math.Floor(Scaled(metres, Decimals + more) + slack), more);

    /// <summary>A gap with its unit, rounded down to one decimal less than usual: never shown too large. "0.8 mm"; "overlap of 2.73 mm".</summary>
    /// <param name="metres">The gap, in metres; below 0 the parties overlap.</param>
    public string Gap(double metres)
    {
        var down = Rounded.Trimmed(Floor(metres, -1));
        return down[0] == '-' ? $"overlap of {down[1..]} {Symbol}" : $"{down} {Symbol}";
    }

    /// <summary>Two lengths with their unit, and with as many decimals as it takes to tell them apart.</summary>
    public (string One, string Other) Apart(double one, double other)
    {
        for (var more = 0; ; more++)
        {
            var (first, second) = (Fixed(one, more), Fixed(other, more));
            if (first != second || Decimals + more == MostDecimals || this == Metre)
            {
                return ($"{first} {Symbol}", $"{second} {Symbol}");
            }
        }
    }

    /// <summary>The length as a number of this unit, to be drawn or compared.</summary>
    public double Of(double metres) => _exponent is { } power ? metres * Rounded.Power(power) : metres / MetresOfInch;

    /// <summary>The metres of a number of this unit.</summary>
    public double Metres(double number) => _exponent is { } power ? number / Rounded.Power(power) : number * MetresOfInch;

    /// <inheritdoc />
    public override string ToString() => Symbol;

    /// <summary>Scaled at once where the unit is a power of ten of a metre: the digits are then those of an answer in metres.</summary>
    private double Scaled(double metres, int decimals) =>
        _exponent is { } power ? metres * Rounded.Power(power + decimals) : metres / MetresOfInch * Rounded.Power(decimals);

    private string Whole(double scaled, int more) => Rounded.Text(scaled, scaled / Rounded.Power(Decimals + more), Decimals + more);

    private static bool IsZero(string text) => !text.AsSpan().ContainsAnyInRange('1', '9');
}
