using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Output;

/// <summary>A table of offsets for machines: metres with six decimals, as served. What is not known is not there.</summary>
internal static class OffsetTableJson
{
    public static OffsetTableShape Of(OffsetTable table, InForce inForce)
    {
        var (r, q) = (table.Revision, table.Revision.TaughtOrigin.Orientation);
        return new(
            r.Fixture, r.Number, r.Digest, inForce.Is, inForce.Said, inForce.Refused, table.Purpose.Name(), [table.Column, table.Row], "m",
            Number(table.StandOffMetres), new(Number(r.TaughtDiameterMetres), Three(r.TaughtOrigin.PositionMetres)),
            [Number(q.W), Number(q.X), Number(q.Y), Number(q.Z)], Of(table.Envelope.Least, r), Of(table.Envelope.Greatest, r), table.From?.Gauge,
            table.Rows.Select(Of), table.WhyLeftOut is { } why ? new(table.LeftOut, why.Info.Name, why.Text) : null);
    }

    private static OffsetRowShape Of(OffsetRow row) => new(
        Number(row.DiameterMetres), Three(row.ShiftBase), Three(row.PositionMetres), row.Sure is { } u ? Of(u.Along, u.Across) : null,
        row.Sure is { AlongWorst: { } along, AcrossWorst: { } across } ? Of(along, across) : null,
        row.Marks == RowMarks.None ? null : OffsetText.Marks(row.Marks));

    private static ServedUncertaintyShape Of(double along, double across) => new(Number(OffsetText.Up(along)), Number(OffsetText.Up(across)));

    private static OffsetEndShape Of(EnvelopeEnd end, Revision revision) =>
        new(Number(end.DiameterMetres), Binding.Name(end.Constraint), Binding.Said(end, revision.Around.Obstacles, LengthUnit.Millimetre));

    private static decimal[] Three(Vector3 v) => [Number(v.X), Number(v.Y), Number(v.Z)];

    /// <summary>A decimal keeps the digits as they are served.</summary>
    private static decimal Number(double value) => decimal.Parse(OffsetText.M(value), NumberStyles.Number, CultureInfo.InvariantCulture);
}
