using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Output;

/// <summary>A table of offsets on a terminal, in the unit of the display; the diameter also in that of the step, where that is inches.</summary>
internal static class OffsetTableView
{
    public static void Print(OffsetTable table, InForce inForce, LengthUnit unit, LengthUnit? besides)
    {
        var (r, p) = (table.Revision, table.Revision.TaughtOrigin.PositionMetres);
        Plain.Line($"{r.Fixture} revision {r.Number}, {inForce.Head}, digest {r.Digest}");
        if (inForce.Why.Length > 0)
        {
            Plain.Line($"{inForce.Head}: {inForce.Why}.");
        }

        Plain.Line(
            $"{table.Purpose.Name()} at nest {table.Column},{table.Row}, stand-off {unit.Text(table.StandOffMetres)}; taught with "
                + $"{unit.Text(r.TaughtDiameterMetres)} at x {unit.Fixed(p.X)}, y {unit.Fixed(p.Y)}, z {unit.Fixed(p.Z)} {unit}");
        Plain.Line(
            $"Below {unit.Text(table.Envelope.Least.DiameterMetres)} is refused: {Binding.Said(table.Envelope.Least, r.Around.Obstacles, unit)}. "
                + $"Above {unit.Text(table.Envelope.Greatest.DiameterMetres)} is refused: "
                + $"{Binding.Said(table.Envelope.Greatest, r.Around.Obstacles, unit)}.");
        if (inForce.Refused is { } refused)
        {
            Plain.Line($"The service now refuses all asks for this fixture: {refused}.");
        }

        Plain.Line("");
        Plain.Table(
            [
                .. besides is null ? (string[])[] : [$"diameter [{besides}]"], "diameter", "bx", "by", "bz", "x", "y", "z",
                .. table.IsSure ? ["U along", "U across"] : (string[])[], "",
            ],
            table.Rows.Select(row => Cells(row, unit, besides)));
        Plain.Line("");
        Plain.Line(
            $"All lengths are in {unit.Name}. bx by bz is the shift in base, for a program that adds it to the taught origin in base. x y z is where "
                + $"{(table.IsOrigin ? "the origin" : "the nest")} then is, in base. Use one or the other, never both.");
        Plain.Line($"A program that multiplies poses needs another shift, which is not in this table: ox oy oz of an answer. {OffsetText.SureFor(table)}");
        if (table.WhyLeftOut is { } why)
        {
            Plain.Line($"Diameters without a row, since they would be refused: {table.LeftOut}. The first: {why.In(unit)}.");
        }

        Plain.Line("Void after any adoption: compare revision and digest with stockseat fixture list before use.");
        Plain.Line(Caution.Short("This table", Caution.Shift, Caution.Diameter));
    }

    private static IReadOnlyList<string> Cells(OffsetRow row, LengthUnit unit, LengthUnit? besides) =>
    [
        .. besides is null ? (string[])[] : [besides.Fixed(row.DiameterMetres)],
        .. OffsetText.Lengths(row).Select(m => unit.Fixed(m)),
        .. OffsetText.Sure(row) is var (along, across) ? [unit.Up(along), unit.Up(across)] : (string[])[],
        OffsetText.Marks(row.Marks),
    ];
}
