using System.Text.Json;
using Stockseat.Fixtures.Reading;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Calibration;

/// <summary>Makes the next revision of a fixture from the values of one and from touched nests.</summary>
public static class Calibrator
{
    /// <summary>How far the fitted axes may be turned from the drawing's when the origin itself is taken from the touches, and nothing else would show that the nests are reversed.</summary>
    private const double FarthestTurnRadians = Math.PI / 4;

    /// <summary>Fits, judges and writes the text.</summary>
    /// <param name="source">The bytes of the file whose values are kept.</param>
    /// <param name="drawing">The revision in it.</param>
    /// <param name="rows">The touched nests.</param>
    /// <param name="table">The table's name, for messages.</param>
    /// <param name="wish">What is to be done.</param>
    public static CalibrationOutcome Calibrate(ReadOnlyMemory<byte> source, Revision drawing, IReadOnlyList<TouchedRow> rows, string table, CalibrationWish wish)
    {
        source = source.Span.StartsWith("\uFEFF"u8) ? source[3..] : source;
        wish = wish with
        {
            ResidualLimit = wish.ResidualLimit ?? Stated(source.Span, "frame.residualLimit"),
            OriginLimit = wish.OriginLimit ?? Stated(source.Span, "frame.originLimit"),
        };
        var faults = new Faults(table);
        var nests = rows.Select(r => r.Nest).ToArray();
        var drawn = new Drawn(drawing.Nest, drawing.Layout, drawing.TaughtDiameterMetres, drawing.TaughtOrigin.PositionMetres);
        for (var i = 0; i < rows.Count; i++)
        {
            if (TouchedFrames.Unusable(drawn, nests, i) is { } unusable)
            {
                faults.Add($"line {rows[i].Line}", unusable);
            }
        }

        if (!faults.None)
        {
            return new(null, null, null, faults.All);
        }

        var normal = Normal(source.Span);
        LocatorFit? locators = null;
        var changes = new Dictionary<string, string>(StringComparer.Ordinal);
        if (wish.FitLocators)
        {
            if (MasterFit.Fit(source.Span, drawing, nests, normal, wish.TouchingMetres, changes, out var fault) is not { } fitted)
            {
                faults.Add("", fault!);
                return new(null, null, null, faults.All);
            }

            (locators, drawn) = (fitted.Fit, drawn with { Nest = fitted.Nest });
        }

        var limits = new TouchLimits(
            Metres(wish.ResidualLimit) ?? TouchLimits.Usual.ResidualMetres, Metres(wish.OriginLimit) ?? TouchLimits.Usual.OriginMetres);
        var frame = TouchedFrames.TryFit(drawn, nests, normal, limits, out var unfit);
        if (frame is not null && wish.OriginFromTouches)
        {
            if (Turned(frame, drawing) is { } turned)
            {
                faults.Add("", turned);
            }

            changes["taught.position"] = RevisionText.Position(frame.OriginMetres);
            frame = TouchedFrames.Of(drawn with { TaughtPositionMetres = frame.OriginMetres }, nests, limits, frame.Fit);
        }

        foreach (var misfit in frame is null ? [unfit!] : TouchedFrames.Misfits(frame))
        {
            faults.Add("", misfit);
        }

        return faults.None
            ? Write(source, drawing, rows, wish, changes, frame!, locators)
            : new(frame, locators, null, faults.All);
    }

    /// <summary>Writes the text and reads it back as strictly as the service will.</summary>
    private static CalibrationOutcome Write(
        ReadOnlyMemory<byte> source, Revision drawing, IReadOnlyList<TouchedRow> rows, CalibrationWish wish, Dictionary<string, string> changes, TouchedFrame frame, LocatorFit? locators)
    {
        changes["revision"] = RevisionText.Whole(wish.Number);
        changes["calibrated"] = RevisionText.Calibrated(wish.Note);
        changes["frame"] = RevisionText.Frame(rows, JsonSplice.Get(source.Span, "frame.normal"), wish.ResidualLimit, wish.OriginLimit);
        var text = JsonSplice.Replace(source.Span, changes);
        var reading = RevisionReader.Read(text, $"revision {wish.Number} as calibrated", drawing.Fixture, wish.Number);
        return reading.Revision is { } revision
            ? new(revision.Touched, locators, text, [])
            : new(frame, locators, null, reading.Faults);
    }

    private static string? Turned(TouchedFrame frame, Revision drawing)
    {
        var (fitted, drawn) = (frame.Fit.Frame, drawing.Frame);
        // The angle of the rotation from the one to the other, from its trace.
        var trace = Vector3.Dot(fitted.U, drawn.U) + Vector3.Dot(fitted.V, drawn.V) + Vector3.Dot(fitted.W, drawn.W);
        var angle = Math.Acos(Math.Clamp((trace - 1) / 2, -1, 1));
        return angle > FarthestTurnRadians
            ? $"the touched nests show the plan turned by {Wording.Number(angle * 180 / Math.PI, 1)} deg against the frame of revision {drawing.Number}, at most {Wording.Number(FarthestTurnRadians * 180 / Math.PI, 1)} deg are taken when the origin comes from the touched nests: the nests are named in the reverse order, or the fixture was turned. Name the nests from the taught one, or state the turned frame in the revision that is calibrated"
            : null;
    }

    private static Vector3 Normal(ReadOnlySpan<byte> source)
    {
        using var document = JsonDocument.Parse(JsonSplice.Get(source, "frame.normal"), new() { CommentHandling = JsonCommentHandling.Skip });
        double Part(string name) => document.RootElement.GetProperty(name).GetDouble();
        return new(Part("x"), Part("y"), Part("z"));
    }

    /// <summary>A text that the file states; null when it does not.</summary>
    private static string? Stated(ReadOnlySpan<byte> source, string path)
    {
        if (!JsonSplice.Has(source, path))
        {
            return null;
        }

        using var document = JsonDocument.Parse(JsonSplice.Get(source, path));
        return document.RootElement.GetString();
    }

    private static double? Metres(string? typed) =>
        typed is null ? null
        : Quantity.TryParseLength(typed, allowSign: false, out var metres) == QuantityFault.None ? metres
        : throw new ArgumentOutOfRangeException(nameof(typed), typed, "a length with its unit");
}
