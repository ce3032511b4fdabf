using Stockseat.Answers.Advising;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Numbers;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>What a revision means in base, on a drawing: the sentences at the left, the places of the nests at the right.</summary>
internal sealed class StatementBlock
{
    /// <summary>Room that is always free at the right end, above the block's foot: whatever is drawn below may reach into it.</summary>
    public const double FreeAtFoot = 7;

    private const double Size = 2.5;

    private const double Line = 3.3;

    private const double Between = 5;

    private readonly List<string> _sentences;
    private readonly List<string[]> _nests;
    private readonly double _width;

    /// <summary>Breaks the sentences into lines.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="unit">The unit of lengths.</param>
    /// <param name="width">How wide the block is, in millimetres of the paper.</param>
    public StatementBlock(Revision revision, LengthUnit unit, double width)
    {
        _width = width;
        var statement = BaseStatement.Of(revision);
        var sentences = StatementText.Sentences(statement, unit).Select(Sentence).ToArray();
        _sentences = [.. sentences[..^2].Append(string.Join(' ', sentences[^2..])).SelectMany(s => SvgWriter.Wrapped(s, Size, SentenceWidth))];
        _nests = [.. statement.Nests.Select(Places)];
    }

    /// <summary>How high it is, in millimetres of the paper.</summary>
    public double Height => Math.Max((Line * (1 + _sentences.Count)) + 1.5, (Line * (2 + _nests.Count)) + FreeAtFoot);

    private double SentenceWidth => (_width * 0.53) - Between;

    /// <summary>Draws it below and to the right of a point.</summary>
    public void Draw(SvgWriter svg, Point corner)
    {
        var y = corner.Y + Line - 0.8;
        svg.Text(new(corner.X, y), "In the robot's base this means:", Size, bold: true);
        for (var i = 0; i < _sentences.Count; i++)
        {
            svg.Text(new(corner.X, y + (Line * (i + 1))), _sentences[i], Size);
        }

        var left = corner.X + (_width * 0.53);
        double[] ends = [8, 22, 36, 50, 62.4, 74.8, 87.2];
        string[] heads = ["nest", "x mm", "y mm", "z mm", "x in", "y in", "z in"];
        for (var row = 0; row <= _nests.Count; row++)
        {
            var cells = row == 0 ? heads : _nests[row - 1];
            for (var i = 0; i < cells.Length; i++)
            {
                // A number is never cut off: a long one is written smaller.
                var (bold, room) = (row == 0, i == 0 ? ends[0] : ends[i] - ends[i - 1] - 1);
                var size = Math.Min(Size, Size * room / SvgWriter.WidthOf(cells[i], Size, bold));
                svg.Text(new(left + (i == 0 ? 0 : ends[i]), y + (Line * row)), cells[i], size, i == 0 ? "start" : "end", bold);
            }
        }

        svg.Text(new(left, y + (Line * (_nests.Count + 1))), "Nests: with stock of the taught diameter.", Size);
    }

    /// <summary>A nest, and where it is in millimetres and in inches.</summary>
    private static string[] Places(StatedNest nest)
    {
        var (x, y, z) = nest.PositionMetres;
        string[] In(LengthUnit unit) => [PrintedNumbers.Fixed(x, unit), PrintedNumbers.Fixed(y, unit), PrintedNumbers.Fixed(z, unit)];
        return [$"{PrintedNumbers.Whole(nest.Column)},{PrintedNumbers.Whole(nest.Row)}", .. In(LengthUnit.Millimetre), .. In(LengthUnit.Inch)];
    }

    /// <summary>With a capital, a full stop and real minus signs.</summary>
    private static string Sentence(string text) => PrintedNumbers.Printed($"{char.ToUpperInvariant(text[0])}{text[1..]}.");
}
