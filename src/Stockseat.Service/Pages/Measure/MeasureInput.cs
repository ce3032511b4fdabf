using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages.Measure;

/// <summary>What a person typed and chose about one blank.</summary>
/// <param name="Typed">The fields for readings, in their order; "" where nothing was typed.</param>
/// <param name="Unit">The unit that was chosen; "" when none was.</param>
/// <param name="Gauge">The gauge; "" when none was chosen.</param>
/// <param name="Lot">The lot; "" when none was typed.</param>
/// <param name="Length">The length of the blank; "" when none was typed.</param>
/// <param name="Nest">The nest that it stands in; "" for the stock of the whole fixture.</param>
public sealed record MeasureInput(IReadOnlyList<string> Typed, string Unit, string Gauge, string Lot, string Length, string Nest)
{
    /// <summary>How many fields for readings the form has.</summary>
    public const int Most = 6;

    /// <summary>The field of the unit.</summary>
    public const string UnitField = "unit";

    /// <summary>The field of the gauge.</summary>
    public const string GaugeField = "gauge";

    /// <summary>The field of the lot.</summary>
    public const string LotField = "lot";

    /// <summary>The field of the length.</summary>
    public const string LengthField = "length";

    /// <summary>The field of the nest.</summary>
    public const string NestField = "nest";

    /// <summary>The field of the form's id, in the address of the second step.</summary>
    public const string IdField = "id";

    /// <summary>The units that a caliper may show.</summary>
    public static readonly IReadOnlyList<(string Symbol, string Name)> Units = [("mm", "mm"), ("in", "inches")];

    /// <summary>Whether nothing was typed or chosen.</summary>
    public bool IsEmpty => this is { Unit: "", Gauge: "", Lot: "", Length: "", Nest: "" } && Typed.All(t => t.Length == 0);

    /// <summary>The field of a reading, counted from 1.</summary>
    public static string ReadingField(int number) => "reading" + number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Reads the fields.</summary>
    /// <param name="field">A field's text; null when it was not sent.</param>
    public static MeasureInput Of(Func<string, string?> field)
    {
        return new(
            [.. Enumerable.Range(1, Most).Select(n => Text(ReadingField(n)))], Text(UnitField), Text(GaugeField), Text(LotField), Text(LengthField),
            Text(NestField));

        string Text(string name) => field(name)?.Trim() ?? "";
    }

    /// <summary>The push that it means, or what is wrong with it.</summary>
    /// <param name="caller">Who pushes.</param>
    /// <param name="fixture">For which fixture.</param>
    /// <param name="answerer">Knows the gauges and the lots of the configuration.</param>
    public (MeasureAsk? Ask, IReadOnlyList<string> Faults) Read(Caller caller, string fixture, IAnswerer answerer)
    {
        List<string> faults = [];
        var readings = new List<TypedReading>();
        TypedReading? length = null;
        if (Units.All(u => u.Symbol != Unit))
        {
            faults.Add("No unit is chosen; choose the one that the caliper shows, mm or inches");
        }
        else
        {
            foreach (var (number, typed) in Typed.Index().Where(t => t.Item.Length > 0))
            {
                if (TypedReading.Read(typed, Unit, $"Reading {(number + 1).ToString(CultureInfo.InvariantCulture)}", out var reading) is { } fault)
                {
                    faults.Add(fault);
                }

                readings.Add(reading);
            }

            if (Length.Length > 0)
            {
                if (TypedReading.Read(Length, Unit, "The length", out var read) is { } fault)
                {
                    faults.Add(fault);
                }

                length = read;
            }
        }

        if (Typed.All(t => t.Length == 0))
        {
            faults.Add("No reading is typed; type what the caliper shows");
        }

        Name("The gauge", Gauge, faults);
        Name("The lot", Lot, faults);
        var nest = NestText.Of(Nest);
        if (Nest.Length > 0 && nest is null)
        {
            faults.Add($"The nest is '{Refusal.Shown(Nest)}'; column,row such as 2,1 was expected");
        }

        return faults.Count > 0 ? (null, faults) : (Make(readings, length, nest, caller, fixture, answerer), faults);
    }

    /// <summary>The address of a step, with all that was typed.</summary>
    /// <param name="path">The path of the step.</param>
    /// <param name="id">The id of the form; null: it has none yet.</param>
    public string Address(string path, string? id = null) => path + QueryString.Create(
        Fields.Select(f => KeyValuePair.Create(f.Name, (string?)f.Value)).Concat(id is null ? [] : [KeyValuePair.Create(IdField, (string?)id)]));

    /// <summary>All fields in which there is something.</summary>
    public IEnumerable<(string Name, string Value)> Fields =>
        ((IEnumerable<(string Name, string Value)>)[
            .. Typed.Select((t, i) => (ReadingField(i + 1), t)), (UnitField, Unit), (GaugeField, Gauge), (LotField, Lot),
            (LengthField, Length), (NestField, Nest)])
        .Where(f => f.Value.Length > 0);

    private MeasureAsk Make(List<TypedReading> readings, TypedReading? length, int[]? nest, Caller caller, string fixture, IAnswerer answerer)
    {
        var (gauge, lot) = (Gauge.Length > 0 ? Gauge : null, Lot.Length > 0 ? Lot : null);
        return new(caller, fixture)
        {
            ReadingsMetres = [.. readings.Select(r => r.Metres)],
            ReadingsSent = [.. readings.Select(r => r.Sent)],
            Unit = Unit,
            Gauge = gauge,
            Terms = answerer.Terms(gauge),
            Lot = lot,
            LotTerms = answerer.Lot(lot),
            LengthMetres = length?.Metres,
            Nest = nest,
        };
    }

    private static void Name(string what, string text, List<string> faults)
    {
        if (text.Length > 0 && !NameText.IsName(text))
        {
            faults.Add($"{what} is '{Refusal.Shown(text)}'; {NameText.Expected} was expected");
        }
    }
}
