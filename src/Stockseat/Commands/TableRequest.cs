using System.CommandLine;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;

namespace Stockseat.Cli.Commands;

/// <summary>Which table is wanted, and how.</summary>
internal readonly record struct TableRequest(
    Purpose Purpose, (int Column, int Row) Nest, DiameterFrom? From, TableSteps Steps, bool Inches, bool Json, bool Csv, string? Card)
{
    public TableRequest(TableOptions o, ParseResult parsed, DiameterFrom? from)
        : this(
            parsed.GetValue(o.Purpose) == "place" ? Purpose.Place : Purpose.Pick,
            parsed.GetValue(o.Nest) is [var column, var row] ? (column, row) : (0, 0),
            from,
            new(parsed.GetValue(o.From), parsed.GetValue(o.To), (parsed.GetValue(o.Step) ?? TableStep.Usual).Metres),
            parsed.GetValue(o.Step)?.Inches ?? false,
            parsed.GetValue(o.Json),
            parsed.GetValue(o.Csv),
            parsed.GetValue(o.Card))
    {
    }
}
