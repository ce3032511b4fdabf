using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Output;

/// <summary>A table of offsets on a terminal, in millimetres.</summary>
internal static class OffsetTableView
{
    public static void Print(OffsetTable table, InForce inForce, bool inches)
    {
        var (r, p) = (table.Revision, table.Revision.TaughtOrigin.PositionMetres);
        Plain.Line($"{r.Fixture} revision {r.Number}, {inForce.Head}, digest {r.Digest}");
        if (inForce.Why.Length > 0)
        {
            Plain.Line($"{inForce.Head}: {inForce.Why}.");
        }

        Plain.Line(
            $"{table.Purpose.Name()} at nest {table.Column},{table.Row}, stand-off {Wording.Length(table.StandOffMetres)}; taught with "
                + $"{Wording.Length(r.TaughtDiameterMetres)} at x {OffsetText.Mm(p.X)}, y {OffsetText.Mm(p.Y)}, z {OffsetText.Mm(p.Z)}");
        Plain.Line(
            $"Below {Wording.Millimetres(table.Envelope.Least.DiameterMetres)} mm is refused: {Binding.Said(table.Envelope.Least, r.Around.Obstacles)}. "
                + $"Above {Wording.Millimetres(table.Envelope.Greatest.DiameterMetres)} mm is refused: "
                + $"{Binding.Said(table.Envelope.Greatest, r.Around.Obstacles)}.");
        if (inForce.Refused is { } refused)
        {
            Plain.Line($"The service now refuses all asks for this fixture: {refused}.");
        }

        Plain.Line("");
        Plain.Table(
            [
                .. inches ? ["diameter [in]"] : (string[])[], "diameter", "bx", "by", "bz", "x", "y", "z",
                .. table.IsSure ? ["U along", "U across"] : (string[])[], "",
            ],
            table.Rows.Select(row => Cells(row, inches)));
        Plain.Line("");
        Plain.Line(
            "All lengths are in mm. bx by bz is the shift in base, for a program that adds it to the taught origin in base. x y z is where "
                + $"{(table.IsOrigin ? "the origin" : "the nest")} then is, in base. Use one or the other, never both.");
        Plain.Line($"A program that multiplies poses needs another shift, which is not in this table: ox oy oz of an answer. {OffsetText.SureFor(table)}");
        if (table.WhyLeftOut is { } why)
        {
            Plain.Line($"Diameters without a row, since they would be refused: {table.LeftOut}. The first: {why.Text}.");
        }

        Plain.Line("Void after any adoption: compare revision and digest with stockseat fixture list before use.");
        Plain.Line(Caution.Short("This table", Caution.Shift, Caution.Diameter));
    }

    private static IReadOnlyList<string> Cells(OffsetRow row, bool inches) =>
    [
        .. inches ? [OffsetText.Inches(row.DiameterMetres)] : (string[])[],
        .. OffsetText.Lengths(row).Select(OffsetText.Mm),
        .. OffsetText.Sure(row) is var (along, across) ? [OffsetText.Mm(along), OffsetText.Mm(across)] : (string[])[],
        OffsetText.Marks(row.Marks),
    ];
}
