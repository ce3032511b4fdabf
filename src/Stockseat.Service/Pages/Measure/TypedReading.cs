using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;

namespace Stockseat.Service.Pages.Measure;

/// <summary>One reading of a caliper, as a person typed it: a point or a comma before the decimals, never both, and no separator of thousands.</summary>
/// <param name="Sent">The number as it was typed, with the unit that was chosen.</param>
/// <param name="Metres">The same in metres.</param>
public readonly record struct TypedReading(string Sent, double Metres)
{
    /// <summary>Reads it.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="unit">The unit that was chosen: mm or in.</param>
    /// <param name="name">What messages call it, such as "Reading 2".</param>
    /// <param name="reading">The reading.</param>
    /// <param name="fromZero">Whether it may be 0.</param>
    /// <returns>Null, or what is wrong with it.</returns>
    public static string? Read(string typed, string unit, string name, out TypedReading reading, bool fromZero = false)
    {
        reading = default;
        var text = typed.Trim();
        var number = text.TrimEnd([.. "\"' ", .. Letters]);
        var said = text[number.Length..].Trim();
        if (number.Length > 0 && said.Length > 0 && (said == "\"" ? "in" : said.ToLowerInvariant()) != unit)
        {
            return $"{name}, '{Shown(text)}', has a unit of its own, and {unit} was chosen; choose the unit that the caliper shows";
        }

        // American drawings write .500 for 0.500.
        var plain = (number.StartsWith('.') || number.StartsWith(',') ? "0" : "") + number.Replace(',', '.');
        if (Quantity.TryParseLength(plain + unit, allowSign: false, out var metres) != QuantityFault.None)
        {
            return $"{name}, '{Shown(text)}', is not understood; a plain number such as {(unit == "mm" ? "92.4 or 92,4" : "3.638 or 3,638")} was expected";
        }

        if (metres is not (>= 0 and <= Answerer.LongestMetres) || (metres == 0 && !fromZero))
        {
            return $"{name}, '{Shown(text)}' {unit}, is not {(fromZero ? "from 0" : "above 0 and")} up to {Answerer.LongestMetres} m; "
                + (fromZero ? "type it again" : "type what the caliper shows");
        }

        reading = new($"{number} {unit}", metres);
        return null;
    }

    private static IEnumerable<char> Letters => Enumerable.Range('a', 26).Concat(Enumerable.Range('A', 26)).Select(c => (char)c);

    private static string Shown(string text) => Refusal.Shown(text);
}
