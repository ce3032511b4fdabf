using Stockseat.Answers.Entries;
using Stockseat.Answers.Stock;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Lots;

/// <summary>Reads the lots; a tolerance by name is resolved here, once.</summary>
/// <param name="sources">Collects the settings.</param>
internal sealed class LotsReader(List<SettingSource> sources)
{
    public Dictionary<string, LotTerms> Read(Section? section)
    {
        var lots = new Dictionary<string, LotTerms>(StringComparer.Ordinal);
        foreach (var name in section?.Keys.ToArray() ?? [])
        {
            if (!NameText.IsName(name))
            {
                section!.Faults.Add(section.At(name), $"is not a lot's name; {NameText.Expected} was expected");
            }

            if (section!.Object(name) is { } lot && ReadOne(lot) is { } terms)
            {
                lots[name] = terms;
                sources.Add(new($"Lots:{name}", LotText.Of(terms), "file"));
            }
        }

        return lots;
    }

    private static LotTerms? ReadOne(Section lot)
    {
        var description = new LotDescription
        {
            Nominal = lot.Length("Nominal", Fixtures.Reading.Range.Size, required: false),
            Tolerance = lot.Text("Tolerance", required: false, longest: 40),
            Plus = lot.Length("Plus", Fixtures.Reading.Range.Gap, required: false),
            Minus = lot.Length("Minus", Fixtures.Reading.Range.Gap, required: false),
            OutOfRound = lot.Length("OutOfRound", Fixtures.Reading.Range.Size, required: false),
            Length = lot.Length("Length", Fixtures.Reading.Range.Size, required: false),
            LengthPlus = lot.Length("LengthPlus", Fixtures.Reading.Range.Gap, required: false),
            LengthMinus = lot.Length("LengthMinus", Fixtures.Reading.Range.Gap, required: false),
        };
        var unread = Enum.GetNames<LotPart>().Count(lot.Has) != Stated(description); // The fault of such a value is reported already.
        lot.Finish();
        if (unread)
        {
            return null;
        }

        var terms = description.Resolve(out var faults);
        foreach (var (part, text) in faults)
        {
            lot.Faults.Add(lot.At(part.ToString()), text);
        }

        return terms;
    }

    private static int Stated(LotDescription d) =>
        (d.Tolerance is null ? 0 : 1) + new[] { d.Nominal, d.Plus, d.Minus, d.OutOfRound, d.Length, d.LengthPlus, d.LengthMinus }.Count(v => v is not null);
}
