using Stockseat.Answers.Advising;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Sheets.Cards;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>What a revision means at any diameter: the drawing, the numbers, the statement. By the code that answers.</summary>
public static class SeatView
{
    private const int MostRows = 14;

    private const double Width = 190, Height = 150;

    private static readonly double[] Steps = [0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1];

    /// <summary>What is shown.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="purpose">Pick or place.</param>
    /// <param name="typed">The diameter that was typed, with its unit; "" when none was.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static ShownSeat Of(Revision revision, Purpose purpose, string typed, LengthUnit unit)
    {
        var (metres, fault) = Diameter(typed);
        var statement = BaseStatement.Of(revision);
        var drawn = DrawnPlan.Of(revision.PlanFor(purpose == Purpose.Place), metres is { } d ? [d] : []) with { Unit = unit };
        var drawing = PlanDrawing.Draw(drawn, Width, Height, new(
            "plan", $"The nest of {revision.Fixture}", "The nest to scale, viewed looking down the normal, with the diameters that its key names."));
        var side = revision.Grip is { } grip ? LengthFigure.Draw(grip, LengthFigure.AtLimit(revision), unit, Width, "side") : null;
        return new(
            revision.Number, typed, fault, purpose == Purpose.Place, drawing, side, metres is null ? [] : [.. Said(revision, purpose, metres.Value, unit)],
            RevisionWords.Statement(statement, unit), [.. StatementText.Nests(statement)], unit.Symbol, Rows(revision, purpose, unit));
    }

    private static (double? Metres, string? Fault) Diameter(string typed) =>
        typed.Length == 0 ? (null, null)
        : Quantity.TryParseLength(typed, allowSign: false, out var metres) == QuantityFault.None && metres is > 0 and <= Answerer.LongestMetres ? (metres, null)
        : (null, $"The diameter is '{Answers.Reasons.Refusal.Shown(typed)}'; a length with its unit, such as 92.40 mm or 3.638 in, was expected.");

    /// <summary>What an ask for this diameter at nest 0,0 would get, if it were stated.</summary>
    private static IEnumerable<string> Said(Revision revision, Purpose purpose, double metres, LengthUnit unit)
    {
        yield return $"{LengthUnit.Millimetre.FixedText(metres)}, which is {LengthUnit.Inch.FixedText(metres)}, for a {purpose.Name()} at nest 0,0:";
        if (OffsetTable.One(revision, purpose, metres, out var refusal) is not { } row)
        {
            yield return $"This diameter would be refused: {refusal!.In(unit)}.";
            yield break;
        }

        var (shift, position) = (row.ShiftBase, row.PositionMetres);
        yield return $"Shift in base: bx {PrintedNumbers.Signed(shift.X, unit)}, by {PrintedNumbers.Signed(shift.Y, unit)}, "
            + $"bz {PrintedNumbers.Signed(shift.Z, unit)} {unit}.";
        yield return $"Corrected origin in base: x {PrintedNumbers.Fixed(position.X, unit)}, y {PrintedNumbers.Fixed(position.Y, unit)}, "
            + $"z {PrintedNumbers.Fixed(position.Z, unit)} {unit}.";
    }

    private static IReadOnlyList<string[]> Rows(Revision revision, Purpose purpose, LengthUnit unit)
    {
        var envelopes = revision.Envelopes();
        if ((purpose == Purpose.Pick ? envelopes.Pick : envelopes.Place) is not { } envelope)
        {
            return [];
        }

        var (least, greatest) = new TableSteps().Ends(envelope);
        var step = Steps.FirstOrDefault(s => (greatest - least) / s <= MostRows - 3, Steps[^1]);
        return OffsetTable.Of(revision, purpose, (0, 0), null, new(StepMetres: step), out _, out _) is not { } table ? []
            : [.. table.Rows.Select(r => (string[])
            [
                PrintedNumbers.Fixed(r.DiameterMetres, unit), PrintedNumbers.Signed(r.ShiftBase.X, unit), PrintedNumbers.Signed(r.ShiftBase.Y, unit),
                PrintedNumbers.Signed(r.ShiftBase.Z, unit), OffsetText.Marks(r.Marks),
            ])];
    }
}
