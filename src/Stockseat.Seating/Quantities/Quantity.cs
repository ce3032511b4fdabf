using System.Globalization;

namespace Stockseat.Seating.Quantities;

/// <summary>
/// Text with a unit, read to SI and never guessed: digits, at most one point between digits, at most one space, a unit.
/// The digits are multiplied exactly by the unit's factor and rounded once, so <c>3.638 in</c> is exactly 0.0924052 m.
/// The culture plays no part; no memory is allocated.
/// </summary>
public static class Quantity
{
    /// <summary>The most digits that a number may have; far beyond what a double can hold.</summary>
    public const int MaxDigits = 60;

    /// <summary>Reads a length. Units: <c>mm</c>, <c>m</c>, <c>um</c>, <c>in</c> (25.4 mm exactly, since 1959).</summary>
    /// <param name="text">The text, for example <c>92.40mm</c> or <c>3.638 in</c>.</param>
    /// <param name="allowSign">Whether a leading minus is taken; a plus never is.</param>
    /// <param name="metres">The length in metres; 0 when there is a fault.</param>
    /// <returns><see cref="QuantityFault.None"/>, or what is wrong with the text.</returns>
    public static QuantityFault TryParseLength(ReadOnlySpan<char> text, bool allowSign, out double metres)
    {
        metres = 0;
        var fault = Split(text, allowSign, out var number, out var unit);
        if (fault != QuantityFault.None)
        {
            return fault;
        }

        switch (unit)
        {
            case "mm": return Scale(number, 1, -3, out metres);
            case "m": return Scale(number, 1, 0, out metres);
            case "um": return Scale(number, 1, -6, out metres);
            case "in": return Scale(number, 254, -4, out metres);
            default: return QuantityFault.UnitUnknown;
        }
    }

    /// <summary>Reads an angle. Units: <c>deg</c>, <c>rad</c>.</summary>
    /// <param name="text">The text, for example <c>135 deg</c>.</param>
    /// <param name="allowSign">Whether a leading minus is taken.</param>
    /// <param name="radians">The angle in radians; 0 when there is a fault.</param>
    /// <returns><see cref="QuantityFault.None"/>, or what is wrong with the text.</returns>
    public static QuantityFault TryParseAngle(ReadOnlySpan<char> text, bool allowSign, out double radians)
    {
        radians = 0;
        var fault = Split(text, allowSign, out var number, out var unit);
        if (fault != QuantityFault.None)
        {
            return fault;
        }

        switch (unit)
        {
            case "rad":
                return Scale(number, 1, 0, out radians);
            case "deg":
                fault = Scale(number, 1, 0, out var degrees);
                radians = degrees * (Math.PI / 180);
                return fault;
            default:
                return QuantityFault.UnitUnknown;
        }
    }

    /// <summary>Reads a mass. Units: <c>kg</c>, <c>g</c>.</summary>
    /// <param name="text">The text, for example <c>8 kg</c>.</param>
    /// <param name="kilograms">The mass in kilograms; 0 when there is a fault.</param>
    /// <returns><see cref="QuantityFault.None"/>, or what is wrong with the text.</returns>
    public static QuantityFault TryParseMass(ReadOnlySpan<char> text, out double kilograms)
    {
        kilograms = 0;
        var fault = Split(text, allowSign: false, out var number, out var unit);
        if (fault != QuantityFault.None)
        {
            return fault;
        }

        switch (unit)
        {
            case "kg": return Scale(number, 1, 0, out kilograms);
            case "g": return Scale(number, 1, -3, out kilograms);
            default: return QuantityFault.UnitUnknown;
        }
    }

    /// <summary>Reads a density. Unit: <c>kg/m3</c>.</summary>
    /// <param name="text">The text, for example <c>7850 kg/m3</c>.</param>
    /// <param name="kilogramsPerCubicMetre">The density in kg/m³; 0 when there is a fault.</param>
    /// <returns><see cref="QuantityFault.None"/>, or what is wrong with the text.</returns>
    public static QuantityFault TryParseDensity(ReadOnlySpan<char> text, out double kilogramsPerCubicMetre)
    {
        const string PerVolume = "kg/m3";
        if (text.EndsWith(PerVolume, StringComparison.Ordinal))
        {
            return TryParseMass(text[..^"/m3".Length], out kilogramsPerCubicMetre);
        }

        kilogramsPerCubicMetre = 0;
        var fault = Split(text, allowSign: false, out _, out _);
        return fault == QuantityFault.None ? QuantityFault.UnitUnknown : fault;
    }

    /// <summary>The unit of a text that was read without a fault, as the text has it.</summary>
    public static string UnitOf(string text) => text.TrimStart("-0123456789. ".ToCharArray());

    private static QuantityFault Split(
        ReadOnlySpan<char> text, bool allowSign, out ReadOnlySpan<char> number, out ReadOnlySpan<char> unit)
    {
        number = unit = default;
        if (text.IsEmpty)
        {
            return QuantityFault.Empty;
        }

        var i = allowSign && text[0] == '-' ? 1 : 0;
        var whole = i;
        while (i < text.Length && char.IsAsciiDigit(text[i])) i++;
        if (i == whole)
        {
            return QuantityFault.Malformed;
        }

        if (i < text.Length && text[i] == '.')
        {
            var fraction = ++i;
            while (i < text.Length && char.IsAsciiDigit(text[i])) i++;
            if (i == fraction)
            {
                return QuantityFault.Malformed;
            }
        }

        number = text[..i];
        unit = text[i..];
        if (unit.Length > 1 && unit[0] == ' ')
        {
            unit = unit[1..];
        }

        return unit.IsEmpty || unit is " " ? QuantityFault.UnitMissing
            : LooksLikeUnit(unit) ? QuantityFault.None
            : QuantityFault.Malformed;
    }

    /// <summary>Letters only: a remainder such as that of <c>1e3</c>, <c>92,4mm</c> or <c>9 2mm</c> belongs to a malformed number; it is not a unit.</summary>
    private static bool LooksLikeUnit(ReadOnlySpan<char> unit)
    {
        foreach (var c in unit)
        {
            if (!char.IsLetter(c) && c != '"' && c != '\'')
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>number × factor × 10^exponent, exact in decimal, rounded once to double.</summary>
    private static QuantityFault Scale(ReadOnlySpan<char> number, int factor, int exponent, out double value)
    {
        value = 0;
        var point = number.IndexOf('.');
        if (number.Length - (point < 0 ? 0 : 1) - (number[0] == '-' ? 1 : 0) > MaxDigits)
        {
            return QuantityFault.TooLong;
        }

        Span<char> scaled = stackalloc char[MaxDigits + 16];
        var at = MaxDigits + 4;
        var carry = 0;
        for (var i = number.Length - 1; i >= 0; i--)
        {
            if (char.IsAsciiDigit(number[i]))
            {
                carry += (number[i] - '0') * factor;
                scaled[--at] = (char)('0' + carry % 10);
                carry /= 10;
            }
        }

        for (; carry > 0; carry /= 10)
        {
            scaled[--at] = (char)('0' + carry % 10);
        }

        exponent -= point < 0 ? 0 : number.Length - point - 1;
        var end = MaxDigits + 4;
        scaled[end++] = 'E';
        exponent.TryFormat(scaled[end..], out var written, provider: CultureInfo.InvariantCulture);
        value = double.Parse(scaled[at..(end + written)], NumberStyles.AllowExponent, CultureInfo.InvariantCulture);
        value = number[0] == '-' && value != 0 ? -value : value;
        return QuantityFault.None;
    }
}
