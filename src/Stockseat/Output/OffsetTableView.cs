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
            $"Not smaller than {unit.Text(table.Envelope.Least.DiameterMetres)}: {Binding.Said(table.Envelope.Least, r.Around.Obstacles, unit)}. Not "
                + $"larger than {unit.Text(table.Envelope.Greatest.DiameterMetres)}: {Binding.Said(table.Envelope.Greatest, r.Around.Obstacles, unit)}.");
        if (inForce.Refused is { } refused)
        {
            Plain.Line($"The service refuses all asks of it now: {refused}.");
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
            $"In {unit.Name}. bx by bz: the shift in base, for a program that adds it to the taught origin in base. x y z: where "
                + $"{(table.IsOrigin ? "the origin" : "the nest")} then is, in base. Use one or the other, never both;");
        Plain.Line($"a program that multiplies poses needs another shift, which is not here (ox oy oz of an answer). {OffsetText.SureFor(table)}");
        if (table.WhyLeftOut is { } why)
        {
            Plain.Line($"{table.LeftOut} of the diameters would be refused and have no row; the first one: {why.In(unit)}.");
        }

        Plain.Line("Void after any adoption: compare revision and digest with stockseat fixture list before use.");
    }

    private static IReadOnlyList<string> Cells(OffsetRow row, LengthUnit unit, LengthUnit? besides) =>
    [
        .. besides is null ? (string[])[] : [besides.Fixed(row.DiameterMetres)],
        .. OffsetText.Lengths(row).Select(m => unit.Fixed(m)),
        .. OffsetText.Sure(row) is var (along, across) ? [unit.Up(along), unit.Up(across)] : (string[])[],
        OffsetText.Marks(row.Marks),
    ];
}
