using System.Globalization;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Gauges;

/// <summary>Turns the text of a reading into metres, by the configuration and never by a guess.</summary>
public static class ReadingText
{
    /// <summary>The most digits: more than any gauge shows, and few enough for a decimal.</summary>
    private const int MostDigits = 20;

    /// <summary>A picometre, by which the difference to the master's limit may be rounded up or down.</summary>
    private const double Rounding = 1e-12;

    /// <summary>How close a reading has to be to the master when the gauge states no limits.</summary>
    private const double NearMetres = 1e-6;

    /// <summary>Reads what a line said.</summary>
    /// <param name="found">The reading's text, with its unit and lot where the line states them.</param>
    /// <param name="port">What is configured.</param>
    /// <param name="reading">The reading.</param>
    /// <returns>Null, or why it is not a reading.</returns>
    public static PortCause? Read(LinePattern.Found found, ReadingPortSettings port, out GaugeReading reading)
    {
        reading = default;
        if ((found.Unit ?? port.Unit) is not { } unit || !UnitText.Is(unit))
        {
            return PortCause.UnitUnknown;
        }

        if (found.Lot is { } lot && !NameText.IsName(lot))
        {
            return PortCause.LotMalformed;
        }

        if (Metres(found.Reading, unit, port, out var metres) is { } cause)
        {
            return cause;
        }

        reading = new(metres, unit, found.Lot ?? port.Lot) { Sent = port.Scale == 1 ? $"{found.Reading} {unit}" : null };
        return metres > Answerer.LongestMetres ? PortCause.TooLarge
            : port.MasterMetres is { } master && Math.Abs(metres - master) <= (port.MasterWithinMetres ?? NearMetres) + Rounding ? PortCause.Master
            : null;
    }

    private static PortCause? Metres(string text, string unit, ReadingPortSettings port, out double metres)
    {
        metres = 0;
        var other = port.DecimalMark == '.' ? ',' : '.';
        if (text.Contains(other, StringComparison.Ordinal))
        {
            return PortCause.DecimalMark;
        }

        var negative = text.StartsWith('-');
        var plain = (negative || text.StartsWith('+') ? text[1..] : text).Replace(port.DecimalMark, '.');
        // A letter that the pattern takes as part of the reading would leave another unit behind it, such as m from mm.
        if (plain.Any(char.IsAsciiLetter) || plain.Count(char.IsAsciiDigit) > MostDigits || !IsLength(plain + unit, out metres))
        {
            return PortCause.NoNumber;
        }

        if (negative || metres == 0)
        {
            return PortCause.NotPositive;
        }

        // Multiplied in decimal, so that a scale of 0.01 leaves no trace in the last place.
        return port.Scale == 1 || IsLength(Scaled(plain, port.Scale) + unit, out metres) ? null : PortCause.NoNumber;
    }

    private static bool IsLength(string text, out double metres) => Quantity.TryParseLength(text, allowSign: false, out metres) == QuantityFault.None;

    private static string Scaled(string plain, decimal scale) =>
        (decimal.Parse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture) * scale).ToString(CultureInfo.InvariantCulture);
}

/// <summary>One reading of a gauge.</summary>
/// <param name="Metres">The diameter.</param>
/// <param name="Unit">The unit that it came in.</param>
/// <param name="Lot">The lot, when one is known.</param>
public readonly record struct GaugeReading(double Metres, string Unit, string? Lot)
{
    /// <summary>The reading as the gauge wrote it, with its unit; null when its number is scaled.</summary>
    public string? Sent { get; init; }
}
