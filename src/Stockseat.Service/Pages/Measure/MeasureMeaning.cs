using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Measure;

/// <summary>What a measurement means, by the code that decides and answers.</summary>
internal static class MeasureMeaning
{
    /// <summary>Stock of more than this many times the taught diameter is not drawn: nothing else could be seen beside it.</summary>
    private const double LargestDrawn = 2;

    /// <summary>The drawing's width and height, in millimetres: so small that its words are large on a tablet.</summary>
    private const double Width = 110;

    private const double Height = 118;

    /// <summary>What would be recorded, and what would hold after it.</summary>
    /// <param name="push">The push, as the client may send it.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="last">The last entry.</param>
    /// <param name="at">The instant.</param>
    public static (EntryBody Body, Situation After) Of(Ask push, Situation situation, long last, DateTimeOffset at)
    {
        var body = Decision.Decide(push, situation, at, _ => null);
        (body.Serial, body.At) = (last + 1, EntryTime.Text(at));
        return (body, situation.Apply(body));
    }

    /// <summary>The readings, and what follows from them.</summary>
    /// <param name="body">What was recorded, or would be.</param>
    /// <param name="sent">The readings as they were typed; null: that is not known.</param>
    public static MeasuredStock Stock(EntryBody body, IReadOnlyList<string>? sent)
    {
        var (readings, mean, gauge, lot, length, nest) = body switch
        {
            MeasurementBody m => (m.Readings, m.Diameter, m.Gauge, m.Lot, m.Length, m.Nest),
            RefusalBody r => (r.Readings ?? [], r.Diameter ?? r.Readings?.Average() ?? 0, r.Gauge, r.Lot, r.Length, r.Nest),
            _ => ([], 0.0, null, null, null, null),
        };
        return new(
            [.. readings.Select((r, i) => new ReadingRow(sent?.ElementAtOrDefault(i), Both(r), Signed(Math.Round(r - mean, 12))))], mean, Both(mean),
            readings.Count > 1 ? Both(Math.Round(readings.Max() - readings.Min(), 12)) : null, gauge, lot,
            length, nest is [var column, var row] ? Nest(column, row) : null);
    }

    /// <summary>What the next ask for a pick gets.</summary>
    /// <param name="nest">The nest.</param>
    /// <param name="next">The answer or the refusal.</param>
    /// <param name="unit">The unit of the display.</param>
    public static NextModel Next(string nest, EntryBody next, LengthUnit unit) => next is ServedBody served
        ? new(
            nest, null, [.. new[] { "bx", "by", "bz" }.Select((name, i) => (name, Signed(served.ShiftBase[i])))], served.First,
            served.Uncertainty is { } sure
                ? $"U (k = 2) {unit.Up(sure.Along)} {unit} along the seat axis, {unit.Up(sure.Across)} {unit} across"
                    + (sure.Normal is { } normal ? $", {unit.Up(normal)} {unit} along the normal" : "") : null)
        : new(nest, next is RefusalBody refused ? refused.In(unit).Text : "This can't be told.", [], false, null);

    /// <summary>The nest at a diameter, as SVG; null: it is not drawn.</summary>
    /// <param name="state">The fixture.</param>
    /// <param name="diameterMetres">The diameter, in metres.</param>
    /// <param name="unit">The unit of the display.</param>
    public static string? Draw(FixtureState state, double diameterMetres, LengthUnit unit)
    {
        if (state.InForce is not { } revision || diameterMetres <= 0 || diameterMetres > LargestDrawn * revision.TaughtDiameterMetres)
        {
            return null;
        }

        var drawn = DrawnPlan.Of(revision.PlanFor(place: false), [diameterMetres]) with { Unit = unit };
        var seat = drawn.Asked.All(d => d.Stock is not null) ? "" : " Stock of the measured diameter finds no seat, so only the taught one is drawn.";
        return PlanDrawing.Draw(drawn, Width, Height, new(
            "nest", $"A nest of {state.Fixture} with stock of {unit.Text(diameterMetres)}",
            $"Revision {PrintedNumbers.Whole(revision.Number)}, for a pick, to scale; T is the taught diameter, "
                + $"{unit.Text(revision.TaughtDiameterMetres)}.{seat}"));
    }

    /// <summary>The stock from the side, as SVG; null when its length does not count, or is too far from the taught one to be drawn beside it.</summary>
    /// <param name="state">The fixture.</param>
    /// <param name="lengthMetres">The length, in metres.</param>
    /// <param name="unit">The unit of the display.</param>
    public static string? Side(FixtureState state, double? lengthMetres, LengthUnit unit) =>
        state.InForce?.Grip is { } grip && lengthMetres is > 0 and var length && length <= LargestDrawn * grip.TaughtLengthMetres
            ? LengthFigure.Draw(grip, [length], unit, Width, "side") : null;

    /// <summary>A length in both units.</summary>
    public static BothUnits Both(double metres) =>
        new(PrintedNumbers.Fixed(metres, LengthUnit.Millimetre), PrintedNumbers.Fixed(metres, LengthUnit.Inch));

    /// <summary>A nest in text: its column and row.</summary>
    public static string Nest(int column, int row) => $"{PrintedNumbers.Whole(column)},{PrintedNumbers.Whole(row)}";

    private static BothUnits Signed(double metres) =>
        new(PrintedNumbers.Signed(metres, LengthUnit.Millimetre), PrintedNumbers.Signed(metres, LengthUnit.Inch));
}
