using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Output;

/// <summary>A table of offsets for machines: metres with six decimals, as served. What is not known is not there.</summary>
internal static class OffsetTableJson
{
    public static JsonObject Of(OffsetTable table, InForce inForce)
    {
        var (r, q) = (table.Revision, table.Revision.TaughtOrigin.Orientation);
        var value = new JsonObject { ["fixture"] = r.Fixture, ["revision"] = r.Number, ["digest"] = r.Digest };
        if (inForce.Is is { } known)
        {
            value["inForce"] = known;
        }

        value["standing"] = inForce.Said;
        if (inForce.Refused is { } refused)
        {
            value["refused"] = refused;
        }

        value["purpose"] = table.Purpose.Name();
        value["nest"] = new JsonArray(table.Column, table.Row);
        value["unit"] = "m";
        value["standOff"] = Number(table.StandOffMetres);
        value["taught"] = new JsonObject { ["diameter"] = Number(r.TaughtDiameterMetres), ["position"] = Three(r.TaughtOrigin.PositionMetres) };
        value["orientation"] = new JsonArray([.. new[] { q.W, q.X, q.Y, q.Z }.Select(n => (JsonNode)Number(n))]);
        value["least"] = Of(table.Envelope.Least, r);
        value["greatest"] = Of(table.Envelope.Greatest, r);
        if (table.From?.Gauge is { } gauge)
        {
            value["gauge"] = gauge;
        }

        value["rows"] = Json.Array(table.Rows, Of);
        if (table.WhyLeftOut is { } why)
        {
            value["leftOut"] = new JsonObject { ["count"] = table.LeftOut, ["reason"] = why.Info.Name, ["text"] = why.Text };
        }

        return value;
    }

    private static JsonObject Of(OffsetRow row)
    {
        var value = new JsonObject { ["diameter"] = Number(row.DiameterMetres), ["shiftBase"] = Three(row.ShiftBase), ["position"] = Three(row.PositionMetres) };
        if (row.Sure is { } u)
        {
            value["uncertainty"] = Of(u.Along, u.Across);
        }

        if (row.Sure is { AlongWorst: { } along, AcrossWorst: { } across })
        {
            value["uncertaintyWorst"] = Of(along, across);
        }

        if (row.Marks != RowMarks.None)
        {
            value["mark"] = OffsetText.Marks(row.Marks);
        }

        return value;
    }

    private static JsonObject Of(double along, double across) => new() { ["along"] = Number(OffsetText.Up(along)), ["across"] = Number(OffsetText.Up(across)), ["k"] = 2 };

    private static JsonObject Of(EnvelopeEnd end, Revision revision) => new()
    {
        ["diameter"] = Number(end.DiameterMetres), ["constraint"] = Binding.Name(end.Constraint), ["text"] = Binding.Said(end, revision.Around.Obstacles),
    };

    private static JsonArray Three(Vector3 v) => new(Number(v.X), Number(v.Y), Number(v.Z));

    /// <summary>A decimal keeps the digits as they are served.</summary>
    private static JsonValue Number(double value) => JsonValue.Create(decimal.Parse(OffsetText.M(value), NumberStyles.Number, CultureInfo.InvariantCulture));
}
