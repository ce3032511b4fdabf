using System.Text.Json;
using Stockseat.Fixtures.Reading;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Calibration;

/// <summary>Makes the next revision of a fixture from the values of an earlier one and from touched nests.</summary>
public static class Calibrator
{
    /// <summary>
    /// How far the fitted axes may be turned from the axes of the drawing when the origin itself is taken from the touches: nothing else would then show that
    /// the nests are reversed. Our own choice, without a source.
    /// </summary>
    private const double FarthestTurnRadians = Math.PI / 4;

    /// <summary>Fits, judges and writes the text.</summary>
    /// <param name="source">The bytes of the file whose other values are kept.</param>
    /// <param name="drawing">The revision in that file.</param>
    /// <param name="rows">The touched nests.</param>
    /// <param name="table">The table's name, for messages.</param>
    /// <param name="request">What the calibration has to do.</param>
    public static CalibrationOutcome Calibrate(
        ReadOnlyMemory<byte> source, Revision drawing, IReadOnlyList<TouchedRow> rows, string table, CalibrationRequest request)
    {
        source = source.Span.StartsWith("\uFEFF"u8) ? source[3..] : source;
        request = request with
        {
            ResidualLimit = request.ResidualLimit ?? Stated(source.Span, "frame.residualLimit"),
            OriginLimit = request.OriginLimit ?? Stated(source.Span, "frame.originLimit"),
        };
        var faults = new Faults(table);
        var nests = rows.Select(r => r.Nest).ToArray();
        var reference = new TouchReference(drawing.Nest, drawing.Layout, drawing.TaughtDiameterMetres, drawing.TaughtOrigin.PositionMetres);
        for (var i = 0; i < rows.Count; i++)
        {
            if (TouchedFrames.Unusable(reference, nests, i) is { } unusable)
            {
                faults.Add($"line {rows[i].Line}", unusable);
            }
        }

        if (!faults.None)
        {
            return new(null, null, null, faults.All);
        }

        var normal = Normal(source.Span, drawing);
        LocatorFit? locators = null;
        var changes = new Dictionary<string, string>(StringComparer.Ordinal);
        if (request.FitLocators)
        {
            if (MasterFit.Fit(source.Span, drawing, nests, normal, request.TouchingMetres, changes, out var fault) is not { } fitted)
            {
                faults.Add("", fault!);
                return new(null, null, null, faults.All);
            }

            (locators, reference) = (fitted.Fit, reference with { Nest = fitted.Nest });
        }

        var limits = new TouchLimits(
            Metres(request.ResidualLimit) ?? TouchLimits.Usual.ResidualMetres, Metres(request.OriginLimit) ?? TouchLimits.Usual.OriginMetres);
        var frame = TouchedFrames.TryFit(reference, nests, normal, limits, out var unfit);
        if (frame is not null && request.OriginFromTouches)
        {
            if (Turned(frame, drawing) is { } turned)
            {
                faults.Add("", turned);
            }

            changes["taught.position"] = RevisionText.Position(frame.OriginMetres);
            frame = TouchedFrames.Of(reference with { TaughtPositionMetres = frame.OriginMetres }, nests, limits, frame.Fit);
        }

        foreach (var misfit in frame is null ? [unfit!] : TouchedFrames.Misfits(frame))
        {
            faults.Add("", misfit);
        }

        return faults.None
            ? Write(source, drawing, rows, request, changes, frame!, locators)
            : new(frame, locators, null, faults.All);
    }

    /// <summary>Writes the text and reads it back as strictly as the service will.</summary>
    private static CalibrationOutcome Write(
        ReadOnlyMemory<byte> source, Revision drawing, IReadOnlyList<TouchedRow> rows, CalibrationRequest request, Dictionary<string, string> changes,
        TouchedFrame frame, LocatorFit? locators)
    {
        changes["revision"] = RevisionText.Whole(request.Number);
        changes["calibrated"] = RevisionText.Calibrated(request.Note);
        changes["frame"] = RevisionText.Frame(rows, NormalText(source.Span, drawing), request.ResidualLimit, request.OriginLimit);
        var text = JsonSplice.Replace(source.Span, changes);
        var reading = RevisionReader.Read(text, $"revision {request.Number} as calibrated", drawing.Fixture, request.Number);
        return reading.Revision is { } revision
            ? new(revision.Touched, locators, text, [])
            : new(frame, locators, null, reading.Faults);
    }

    private static string? Turned(TouchedFrame frame, Revision drawing)
    {
        var (fitted, before) = (frame.Fit.Frame, drawing.Frame);
        // The angle of the rotation from one frame to the other, from its trace.
        var trace = Vector3.Dot(fitted.U, before.U) + Vector3.Dot(fitted.V, before.V) + Vector3.Dot(fitted.W, before.W);
        var angle = Math.Acos(Math.Clamp((trace - 1) / 2, -1, 1));
        return angle > FarthestTurnRadians
            ? $"the touched nests show the plan turned by {Rounded.Short(angle * 180 / Math.PI, 1)} deg against the frame of revision {drawing.Number}; at "
            + $"most {Rounded.Short(FarthestTurnRadians * 180 / Math.PI, 1)} deg are allowed when the origin comes from the touched nests. The nests are "
            + "named in the reverse order, or the fixture was turned: name the nests from the taught one, or state the turned frame in the revision that is "
            + "calibrated"
            : null;
    }

    /// <summary>The normal as it is written in the file; a frame that is stated by its turns gives it.</summary>
    private static string NormalText(ReadOnlySpan<byte> source, Revision drawing) =>
        JsonSplice.Has(source, "frame.normal") ? JsonSplice.Get(source, "frame.normal") : RevisionText.Direction(drawing.Frame.W);

    private static Vector3 Normal(ReadOnlySpan<byte> source, Revision drawing)
    {
        if (!JsonSplice.Has(source, "frame.normal"))
        {
            return drawing.Frame.W;
        }

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
