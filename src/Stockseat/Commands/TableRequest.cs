using System.CommandLine;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Commands;

/// <summary>Which table is wanted, and how.</summary>
internal readonly record struct TableRequest(
    Purpose Purpose, (int Column, int Row) Nest, DiameterFrom? From, TableSteps Steps, bool Inches, bool Json, bool Csv, string? Card, Display Display)
{
    public TableRequest(TableOptions o, ParseResult parsed, DiameterFrom? from, Display display)
        : this(
            parsed.GetValue(o.Purpose) == "place" ? Purpose.Place : Purpose.Pick,
            parsed.GetValue(o.Nest) is [var column, var row] ? (column, row) : (0, 0),
            from,
            new(parsed.GetValue(o.From), parsed.GetValue(o.To), (parsed.GetValue(o.Step) ?? Usual(o, parsed, display)).Metres) { Shown = display.Length },
            parsed.GetValue(o.Step)?.Inches ?? false,
            parsed.GetValue(o.Json),
            parsed.GetValue(o.Csv),
            parsed.GetValue(o.Card),
            display)
    {
    }

    /// <summary>For people who read inches the rows are at round inches; machines get the same rows whatever people read.</summary>
    private static TableStep Usual(TableOptions o, ParseResult parsed, Display display) =>
        display.Length == LengthUnit.Inch && !parsed.GetValue(o.Json) && !parsed.GetValue(o.Csv) ? TableStep.UsualInches : TableStep.Usual;
}
