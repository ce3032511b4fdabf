using System.Globalization;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Entries;

/// <summary>A difference of two revisions in words: what the ledger holds in metres and radians, in the unit of the reader and in degrees.</summary>
public static class ChangeText
{
    private const int DecimalsOfDegrees = 4;

    /// <summary>The values before and after, with their units, and with as many decimals as it takes to tell lengths apart.</summary>
    /// <param name="change">The difference.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static (string Before, string After) Of(RevisionChange change, LengthUnit unit)
    {
        if (change.Unit == "m" && Number(change.Before) is { } before && Number(change.After) is { } after)
        {
            return unit.Apart(before, after);
        }

        return (Of(change.Before, change.Unit, unit), Of(change.After, change.Unit, unit));
    }

    private static string Of(string? value, string? si, LengthUnit unit) => (value, si, Number(value)) switch
    {
        (null, _, _) => "not stated",
        (_, "m", { } metres) => unit.FixedText(metres),
        (_, "rad", { } radians) => $"{Rounded.Short(radians * 180 / Math.PI, DecimalsOfDegrees)} deg",
        (_, { } symbol, { }) => $"{value} {symbol}",
        _ => value!,
    };

    private static double? Number(string? text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;
}
