using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Reading;

/// <content>The single values of an object.</content>
public sealed partial class Section
{
    private delegate QuantityFault Reader(ReadOnlySpan<char> text, out double value);

    /// <summary>A text.</summary>
    public string? Text(string key, bool required = true, bool mayBeEmpty = false, int longest = 400)
    {
        if (Take(key, JsonValueKind.String, required ? "a text" : null, "a text") is not { } element)
        {
            return null;
        }

        var text = element.GetString()!;
        if ((text.Length == 0 && !mayBeEmpty) || text.Length > longest)
        {
            Faults.Add(At(key), $"has {text.Length} characters; {(mayBeEmpty ? 0 : 1)} to {longest} were expected");
            return null;
        }

        Resolved[key] = JsonValue.Create(text);
        return text;
    }

    /// <summary>An array of texts; empty when there is a fault.</summary>
    public IReadOnlyList<string> Texts(string key, int from, int to)
    {
        var what = $"an array of {from} to {to} texts";
        if (Take(key, JsonValueKind.Array, what, what) is not { } element)
        {
            return [];
        }

        var items = element.EnumerateArray().ToArray();
        if (items.Length < from || items.Length > to || items.Any(i => i.ValueKind != JsonValueKind.String))
        {
            Faults.Add(At(key), $"is {element.GetRawText()}; {what} was expected");
            return [];
        }

        return [.. items.Select(i => i.GetString()!)];
    }

    /// <summary>A whole number.</summary>
    public int? Whole(string key, int from, int to, bool required = true)
    {
        var what = $"a whole number from {from} to {to}";
        if (Take(key, JsonValueKind.Number, required ? what : null, what) is not { } element)
        {
            return null;
        }

        if (!element.TryGetInt32(out var value) || value < from || value > to)
        {
            Faults.Add(At(key), $"is {element.GetRawText()}; {what} was expected");
            return null;
        }

        Resolved[key] = JsonValue.Create(value);
        return value;
    }

    /// <summary>A number without unit.</summary>
    public double? Number(string key, Range range, bool required = true)
    {
        var what = $"a number {range.Text("").Replace("  ", " ", StringComparison.Ordinal).TrimEnd()}";
        return Take(key, JsonValueKind.Number, required ? what : null, what) is { } element
            ? Checked(key, element, range, what)
            : null;
    }

    /// <summary>True or false.</summary>
    public bool? Flag(string key, bool required = false)
    {
        if (Take(key, JsonValueKind.True, required ? "true or false" : null, "true or false") is not { } element)
        {
            return null;
        }

        Resolved[key] = JsonValue.Create(element.GetBoolean());
        return element.GetBoolean();
    }

    /// <summary>A length, in metres: a text with its unit; a minus only where the range reaches below 0.</summary>
    public double? Length(string key, Range range, bool required = true) => Quantity(
        key, range, required, "a length with its unit (mm, m, um or in), for example \"12.5 mm\"", "m",
        (ReadOnlySpan<char> text, out double value) => Seating.Quantities.Quantity.TryParseLength(text, range.From < 0, out value));

    /// <summary>An angle, in radians: a text with its unit.</summary>
    public double? Angle(string key, Range range, bool required = true) => Quantity(
        key, range, required, "an angle with its unit (deg or rad), for example \"90 deg\"", "rad",
        (ReadOnlySpan<char> text, out double value) => Seating.Quantities.Quantity.TryParseAngle(text, range.From < 0, out value));

    /// <summary>A mass, in kilograms: a text with its unit.</summary>
    public double? Mass(string key, Range range, bool required = true) => Quantity(
        key, range, required, "a mass with its unit (kg or g), for example \"8 kg\"", "kg", Seating.Quantities.Quantity.TryParseMass);

    /// <summary>A density, in kg/m³: a text with its unit.</summary>
    public double? Density(string key, Range range, bool required = true) => Quantity(
        key, range, required, "a density with its unit (kg/m3), for example \"7850 kg/m3\"", "kg/m3", Seating.Quantities.Quantity.TryParseDensity);

    /// <summary>Two lengths [from, to], from below to, in metres.</summary>
    public (double From, double To)? LengthPair(string key, Range range, bool required = true)
    {
        const string What = "two lengths with their units, the smaller first, for example [ \"60 mm\", \"100 mm\" ]";
        if (Take(key, JsonValueKind.Array, required ? What : null, What) is not { } element)
        {
            return null;
        }

        var (values, sound) = (new List<double>(), element.GetArrayLength() == 2);
        foreach (var item in sound ? element.EnumerateArray() : default)
        {
            double value = 0;
            var read = _si
                ? item.ValueKind == JsonValueKind.Number && item.TryGetDouble(out value)
                : item.ValueKind == JsonValueKind.String
                    && Seating.Quantities.Quantity.TryParseLength(item.GetString(), range.From < 0, out value) == QuantityFault.None;
            if (!read || !range.Holds(value))
            {
                Faults.Add($"{At(key)}[{values.Count}]", $"is {Kind(item)}; a length with its unit, {range.Text("m")}, was expected");
                sound = false;
            }

            else if (!_si)
            {
                _written[$"{At(key)}[{values.Count}]"] = item.GetString()!;
            }

            _units[$"{At(key)}[{values.Count}]"] = "m";
            values.Add(value);
        }

        if (sound && values[0] < values[1])
        {
            Resolved[key] = new JsonArray(values[0], values[1]);
            return (values[0], values[1]);
        }

        if (sound || values.Count == 0)
        {
            Faults.Add(At(key), $"is {Shown(element.GetRawText())}; {What} was expected");
        }

        return null;
    }

    private double? Quantity(string key, Range range, bool required, string what, string unit, Reader parse)
    {
        var kind = _si ? JsonValueKind.Number : JsonValueKind.String;
        if (Take(key, kind, required ? what : null, what) is not { } element)
        {
            return null;
        }

        _units[At(key)] = unit;
        if (_si)
        {
            return Checked(key, element, range, what);
        }

        var text = element.GetString()!;
        var fault = parse(text, out var value);
        if (fault != QuantityFault.None)
        {
            Faults.Add(At(key), $"is {Shown(text)}: {Said(fault)}; {what} was expected");
            return null;
        }

        if (!range.Holds(value))
        {
            Faults.Add(At(key), string.Create(
                CultureInfo.InvariantCulture, $"is {Shown(text)}, that is {value:R} {unit}; {range.Text(unit)} was expected"));
            return null;
        }

        Resolved[key] = JsonValue.Create(value);
        _written[At(key)] = text;
        return value;
    }

    private double? Checked(string key, JsonElement element, Range range, string what)
    {
        if (!element.TryGetDouble(out var value) || !range.Holds(value))
        {
            Faults.Add(At(key), $"is {Shown(element.GetRawText())}; {what} was expected");
            return null;
        }

        Resolved[key] = JsonValue.Create(value == 0 ? 0.0 : value);
        return value;
    }

    private static string Said(QuantityFault fault) => fault switch
    {
        QuantityFault.Empty => "it is empty",
        QuantityFault.UnitMissing => "it has no unit",
        QuantityFault.UnitUnknown => "its unit is not known",
        QuantityFault.TooLong => $"it has more than {Seating.Quantities.Quantity.MaxDigits} digits",
        _ => "it is not a plain number with a unit",
    };
}
