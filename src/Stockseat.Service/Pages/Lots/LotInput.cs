using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Stock;
using Stockseat.Service.Answering;
using Stockseat.Service.Pages.Measure;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages.Lots;

/// <summary>What a person typed about a lot.</summary>
/// <param name="field">A field's text; null when it was not sent.</param>
public sealed class LotInput(Func<string, string?> field)
{
    /// <summary>The fields of the form.</summary>
    public const string Lot = "lot", Unit = "unit", Nominal = "nominal", Tolerance = "tolerance", Plus = "plus", Minus = "minus", OutOfRound = "round",
        LengthNominal = "length", LengthPlus = "lengthplus", LengthMinus = "lengthminus";

    private const int LongestTolerance = 40;

    private static readonly string[] All = [Lot, Unit, Nominal, Tolerance, Plus, Minus, OutOfRound, LengthNominal, LengthPlus, LengthMinus];

    /// <summary>What was typed into a field; "" when nothing was.</summary>
    public string this[string name] => field(name)?.Trim() ?? "";

    /// <summary>All fields in which there is something.</summary>
    public IEnumerable<(string Name, string Value)> Fields => All.Select(name => (name, this[name])).Where(f => f.Item2.Length > 0);

    /// <summary>The address of a step, with all that was typed.</summary>
    public string Address(string path) => path + QueryString.Create(Fields.Select(f => KeyValuePair.Create(f.Name, (string?)f.Value)));

    /// <summary>The ask that it means, or what is wrong with it.</summary>
    /// <param name="caller">Who asks.</param>
    /// <param name="answerer">Knows the lots of the configuration.</param>
    public (DescribeLotAsk? Ask, IReadOnlyList<string> Faults) Read(Caller caller, IAnswerer answerer)
    {
        List<string> faults = [];
        if (!NameText.IsName(this[Lot]))
        {
            faults.Add($"The lot is '{Refusal.Shown(this[Lot])}'; {NameText.Expected} was expected.");
        }

        if (this[Tolerance].Length > LongestTolerance)
        {
            faults.Add($"The tolerance has {this[Tolerance].Length} characters; at most {LongestTolerance} were expected.");
        }

        var description = new LotDescription
        {
            Nominal = Length(Nominal, LotPart.Nominal, faults),
            Tolerance = this[Tolerance] is { Length: > 0 and <= LongestTolerance } named ? named : null,
            Plus = Length(Plus, LotPart.Plus, faults),
            Minus = Length(Minus, LotPart.Minus, faults),
            OutOfRound = Length(OutOfRound, LotPart.OutOfRound, faults),
            Length = Length(LengthNominal, LotPart.Length, faults),
            LengthPlus = Length(LengthPlus, LotPart.LengthPlus, faults),
            LengthMinus = Length(LengthMinus, LotPart.LengthMinus, faults),
        };
        if (faults.Count > 0)
        {
            return (null, faults);
        }

        return description.Resolve(out var wrong) is { } terms
            ? (new(caller, this[Lot]) { Terms = terms, Configured = answerer.Lots.ContainsKey(this[Lot]) }, [])
            : (null, [.. wrong.Select(w => $"{Said(w.Part)} {w.Text}.")]);
    }

    /// <summary>What messages and labels call a part.</summary>
    public static string Said(LotPart part) => part switch
    {
        LotPart.Nominal => "The nominal diameter",
        LotPart.Tolerance => "The tolerance",
        LotPart.Plus => "The plus",
        LotPart.Minus => "The minus",
        LotPart.OutOfRound => "The out-of-round",
        LotPart.Length => "The nominal length",
        LotPart.LengthPlus => "The length's plus",
        _ => "The length's minus",
    };

    private double? Length(string name, LotPart part, List<string> faults)
    {
        if (this[name].Length == 0)
        {
            return null;
        }

        if (MeasureInput.Units.All(u => u.Symbol != this[Unit]))
        {
            const string NoUnit = "No unit is chosen; choose the one in which the lengths are typed, mm or inches.";
            if (!faults.Contains(NoUnit))
            {
                faults.Add(NoUnit);
            }

            return null;
        }

        // Many tolerances lie on one side only: the other side is 0.
        if (TypedReading.Read(this[name], this[Unit], Said(part), out var length, 
            fromZero: part is LotPart.Plus or LotPart.Minus or LotPart.LengthPlus or LotPart.LengthMinus) is { } fault)
        {
            faults.Add(fault + ".");
            return null;
        }

        return length.Metres;
    }
}
