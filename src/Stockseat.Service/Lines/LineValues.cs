using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Lines;

/// <summary>Reads the values of a request; the first fault counts.</summary>
internal sealed class LineValues(LineRequest request, Form form)
{
    /// <summary>The most readings of one push; for more there is the stream over gRPC.</summary>
    private const int MostReadings = 20;

    public Refusal? Fault { get; private set; } = request.Fault;

    public void Refuse(Refusal refusal) => Fault ??= refusal;

    /// <summary>Every key has to be one of these.</summary>
    public void Known(params ReadOnlySpan<string> keys)
    {
        foreach (var key in request.Keys)
        {
            if (!keys.Contains(key) && key != "tag")
            {
                Fault ??= Refusal.Of(Reason.KeyUnknown, $"{request.Verb} has no key '{Refusal.Shown(key)}'");
            }
        }

        Tag();
    }

    /// <summary>A required key.</summary>
    public string Needed(string key)
    {
        if (request[key] is { } value)
        {
            return value;
        }

        Fault ??= Refusal.Of(Reason.KeyMissing, $"{request.Verb} needs {key}=");
        return "";
    }

    public string Fixture()
    {
        var fixture = Needed("fixture");
        if (!NameText.MayBeFixture(fixture))
        {
            Fault ??= Refusal.Of(Reason.ValueMalformed, $"'{Refusal.Shown(fixture)}' is not a fixture's name");
        }

        return fixture;
    }

    public string? Name(string key)
    {
        var value = request[key];
        if (value is not null && !NameText.IsName(value))
        {
            Fault ??= Refusal.Of(Reason.ValueMalformed, $"{key} is '{Refusal.Shown(value)}'; {NameText.Expected} was expected");
        }

        return value;
    }

    /// <summary>The tag, when the client's form can echo it.</summary>
    public void Tag()
    {
        if (Name("tag") is { } tag && Fault is null && form.Bars(tag) is { } bar)
        {
            Fault = Refusal.Of(Reason.ValueMalformed, $"tag '{Refusal.Shown(tag)}' {bar}");
        }
    }

    /// <summary>Two keys that are only useful together.</summary>
    public void Together(string one, string other)
    {
        if (request[one] is null != request[other] is null)
        {
            var (there, missing) = request[one] is null ? (other, one) : (one, other);
            Fault ??= Refusal.Of(Reason.KeyMissing, $"{there}= needs {missing}= with it");
        }
    }

    public double? Diameter() => Length("diameter");

    /// <summary>The readings of a push: one diameter, or a few between commas.</summary>
    public IReadOnlyList<double> Readings()
    {
        switch (request["diameter"], request["diameters"])
        {
            case ({ } one, null):
                return [Length("diameter", one)];
            case (null, { } several):
                var texts = several.Split(',');
                if (texts.Length > MostReadings)
                {
                    Fault ??= Refusal.Of(Reason.ValueMalformed, $"diameters has {texts.Length} readings; 1 to {MostReadings} between commas were expected");
                }

                RefuseDecimalComma(texts);
                return [.. texts.Select(t => Length("diameters", t))];
            case (null, null):
                Fault ??= Refusal.Of(Reason.DiameterMissing, "measured needs diameter= or diameters=");
                return [0];
            default:
                Fault ??= Refusal.Of(Reason.ValueMalformed, "both diameter= and diameters= were sent; send only one of them");
                return [0];
        }
    }

    /// <summary>92,40 may be one diameter with a decimal comma; read as two readings, its mean would be 66. Micrometres are whole numbers.</summary>
    private void RefuseDecimalComma(string[] texts)
    {
        for (var i = 1; i < texts.Length && form.BareUnit is not (null or "um"); i++)
        {
            if (texts[i - 1].All(char.IsAsciiDigit) && !texts[i].Contains('.'))
            {
                Fault ??= Refusal.Of(
                    Reason.ValueMalformed,
                    $"diameters '{Refusal.Shown($"{texts[i - 1]},{texts[i]}")}' may be one reading with a decimal comma; readings with a point or "
                        + $"with their units were expected");
            }
        }
    }

    /// <summary>The unit that all readings of a push came in; null when they came in several.</summary>
    public string? UnitOfReadings()
    {
        var readings = (request["diameter"] ?? request["diameters"])?.Split(',');
        var units = readings?.Select(t => Quantity.UnitOf(t) is { Length: > 0 } unit ? unit : form.BareUnit).Distinct().ToArray();
        return units is [var only] ? only : null;
    }

    /// <summary>Lengths as they were sent, each with the unit in which it is read; null when the key is missing.</summary>
    public IReadOnlyList<string>? Sent(string key) => request[key] is not { } text ? null
        : [.. text.Split(',').Select(t => Quantity.UnitOf(t).Length > 0 || form.BareUnit is null ? t : $"{t} {form.BareUnit}")];

    /// <summary>A length with its unit, above 0; without a unit it is read in the unit that the client's form states for that.</summary>
    public double? Length(string key) => request[key] is { } text ? Length(key, text) : null;

    private double Length(string key, string text)
    {
        var fault = Quantity.TryParseLength(text, allowSign: false, out var metres);
        if (fault == QuantityFault.UnitMissing && form.BareUnit is { } unit)
        {
            fault = Quantity.TryParseLength(text + unit, allowSign: false, out metres);
        }

        var shown = Refusal.Shown(text);
        Fault ??= fault switch
        {
            QuantityFault.UnitMissing => Refusal.Of(Reason.UnitMissing, $"{key} '{shown}' has no unit"),
            QuantityFault.UnitUnknown => Refusal.Of(Reason.UnitUnknown, $"the unit of {key} '{shown}' is not known"),
            not QuantityFault.None => Refusal.Of(Reason.DiameterMalformed, $"{key} '{shown}' is not a plain number with a unit"),
            _ when metres is not (> 0 and <= Answerer.LongestMetres) => Refusal.Of(
                Reason.DiameterMalformed, $"{key} '{shown}' is not above 0 and up to {Answerer.LongestMetres} m"),
            _ => null,
        };
        return metres;
    }

    public Purpose Purpose()
    {
        var text = request["purpose"];
        if (text is not (null or "pick" or "place"))
        {
            Fault ??= Refusal.Of(Reason.PurposeUnknown, $"purpose is '{Refusal.Shown(text)}'");
        }

        return text == "place" ? Answers.Entries.Purpose.Place : Answers.Entries.Purpose.Pick;
    }

    /// <summary>Whether a key says yes; absent, it says no.</summary>
    public bool IsYes(string key)
    {
        if (request[key] is not (null or "yes" or "no"))
        {
            Fault ??= Refusal.Of(Reason.ValueMalformed, $"{key} is '{Refusal.Shown(request[key])}'; yes or no was expected");
        }

        return request[key] == "yes";
    }

    public (int Column, int Row) Nest(string key = "nest")
    {
        if (request[key] is not { } text)
        {
            return (0, 0);
        }

        if (NestText.Of(text) is [var column, var row])
        {
            return (column, row);
        }

        Fault ??= Refusal.Of(Reason.ValueMalformed, $"{key} is '{Refusal.Shown(text)}'; column,row such as 2,1 was expected");
        return default;
    }

    /// <summary>Which nests have stock: the first ones, single ones with spaces between them, or all.</summary>
    public (int? First, IReadOnlyList<int[]>? Nests) Nests()
    {
        int? first = null;
        if (request["first"] is { } number)
        {
            first = NestText.Whole(number) ?? -1;
            Fault ??= first >= 0 ? null : Refusal.Of(Reason.ValueMalformed, $"first is '{Refusal.Shown(number)}'; a number of nests such as 12 was expected");
        }

        if (request["nests"] is not { } text || text == "all")
        {
            return (first, null);
        }

        var nests = text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(NestText.Of).ToList();
        if (nests.Contains(null) || nests.Count == 0)
        {
            Fault ??= Refusal.Of(
                Reason.ValueMalformed, $"nests is '{Refusal.Shown(text)}'; all, or nests such as \"0,0 1,0\" with spaces between them, was expected");
        }

        return (first, [.. nests.OfType<int[]>()]);
    }

    public long Serial()
    {
        var text = Needed("serial");
        if (Fault is null && (!long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out _) || text.Length > 18))
        {
            Fault = Refusal.Of(Reason.ValueMalformed, $"serial is '{Refusal.Shown(text)}'; an answer's serial was expected");
        }

        return Fault is null ? long.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture) : 0;
    }

    /// <summary>Numbers read back: without a unit, and possibly with a minus.</summary>
    public Dictionary<string, string> ReadBack()
    {
        var numbers = request.Keys.Where(AnswerBody.Numbers.Contains).ToDictionary(k => k, k => request[k]!);
        foreach (var (name, text) in numbers)
        {
            if (!FixedPoint.IsPlain(text))
            {
                Fault ??= Refusal.Of(Reason.ValueMalformed,
                    $"{name} is '{Refusal.Shown(text)}'; a number without unit such as -0.008213, {FixedPoint.Expected}, was expected");
            }
        }

        return numbers;
    }
}
