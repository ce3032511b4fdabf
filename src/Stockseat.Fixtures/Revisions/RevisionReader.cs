using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Fixtures.Canonical;
using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Uncertainty;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads a revision strictly: from a file with units, or from the resolved content that the ledger keeps.</summary>
public static partial class RevisionReader
{
    /// <summary>The highest number that a revision may have.</summary>
    public const int MaxNumber = 999_999;

    /// <summary>Reads the bytes of a file. All faults are reported at once.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="file">The file's name for messages.</param>
    /// <param name="fixture">The name of the folder, which the fixture's name must equal; null: not compared.</param>
    /// <param name="number">The number in the name of the file, which the revision's number must equal; null: not compared.</param>
    public static RevisionReading Read(ReadOnlyMemory<byte> utf8, string file, string? fixture, int? number) =>
        Read(utf8, file, fixture, number, si: false);

    /// <summary>Reads the resolved content of an adopted revision, as the ledger keeps it.</summary>
    public static RevisionReading FromContent(ReadOnlyMemory<byte> content, string where) => Read(content, where, null, null, si: true);

    /// <summary>Whether a text can be the name of a fixture: <c>[a-z0-9][a-z0-9-]{0,62}</c>.</summary>
    public static bool IsName(string text) => NamePattern().IsMatch(text);

    private static RevisionReading Read(ReadOnlyMemory<byte> utf8, string file, string? fixture, int? number, bool si)
    {
        var faults = new Faults(file);
        if (Section.Parse(utf8, faults, si) is not { } root)
        {
            return Faulty(faults);
        }

        var draft = ReadValues(root, fixture, number, judge: !si);
        root.Finish("$schema");
        if (!faults.None)
        {
            return Faulty(faults);
        }

        var content = CanonicalJson.Write(root.Resolved);
        var revision = Make(root, draft, content);
        return revision is null ? Faulty(faults) : new(revision, []) { Written = root.Written, Units = root.Units };
    }

    private static RevisionReading Faulty(Faults faults) => new(null, faults.All) { FaultCount = faults.Count };

    private sealed record Draft(
        string? Fixture, int? Number, CalibrationNote? Calibrated, Nest? Nest, Layout Layout, double? Diameter, Pose? Origin, string? TaughtIn,
        string? TaughtWith, string? MeasuredWith, PlanFrame? Frame, TouchedFrame? Touched, double Pick, double Place, Limits Limits, bool ReturnsRawStock,
        NestInputs? Uncertainty, Surroundings Around, SeatedBy SeatedBy, Vector3 Up, Grip? Grip);

    private static Draft ReadValues(Section root, string? fixture, int? number, bool judge)
    {
        var name = root.Text("fixture", longest: 63);
        if (name is not null && (fixture is null ? !IsName(name) : name != fixture))
        {
            root.Faults.Add(
                "fixture", $"is \"{name}\"; {(fixture is null ? "a name of a-z, 0-9 and -" : $"\"{fixture}\", the name of its folder,")} was expected");
        }

        var revision = root.Whole("revision", 1, MaxNumber);
        if (revision is not null && number is not null && revision != number)
        {
            root.Faults.Add("revision", $"is {revision}; {number}, the number in the name of the file, was expected");
        }

        var calibrated = root.Object("calibrated") is { } c ? ReadCalibration(c) : null;
        double? locatorTop = null;
        var nest = root.Object("nest") is { } n ? NestReader.Read(n, out locatorTop) : null;
        var layout = LayoutOf(root);
        var taught = root.Object("taught");
        var diameter = taught?.Length("diameter", Range.Size);
        var position = taught?.Object("position") is { } p ? ReadPosition(p) : null;
        var orientation = taught?.Object("orientation") is { } o ? OrientationReader.Read(o) : null;
        var taughtIn = taught?.Text("taughtIn", required: false);
        var taughtWith = taught?.Text("taughtWith", required: false);
        var measuredWith = taught?.Text("measuredWith", required: false, longest: 40);
        if (measuredWith is not null && !GaugePattern().IsMatch(measuredWith))
        {
            taught!.Faults.Add(
                taught.At("measuredWith"), $"is \"{measuredWith}\"; a gauge's name of letters, digits, point, underscore and hyphen was expected");
        }

        taught?.Finish();
        Pose? origin = position is { } at && orientation is { } turned ? new Pose(at, turned) : null;
        TouchedFrame? touched = null;
        var frame = root.Object("frame") is { } f ? FrameReader.Read(f, ReferenceOf(root, nest, layout, diameter, origin), judge, out touched) : null;
        var standOff = root.Object("standOff", required: false);
        var pick = standOff?.Length("pick", Range.Gap, required: false) ?? 0;
        var place = standOff?.Length("place", Range.Gap, required: false) ?? 0;
        standOff?.Finish();
        var limits = root.Object("limits", required: false) is { } l ? LimitsReader.Read(l) : new();
        var uncertainty = UncertaintyReader.Read(root.Object("uncertainty", required: false));
        var around = SurroundingsReader.Read(root, locatorTop);
        var raw = root.Flag("returnsRawStock") ?? false;
        var seatedBy = SeatingReader.ReadSeatedBy(root);
        var up = SeatingReader.ReadUp(root);
        var grip = root.Object("grip", required: false) is { } g ? GripReader.Read(g) : null;
        return new(
            name, revision, calibrated, nest, layout, diameter, origin, taughtIn, taughtWith, measuredWith, frame, touched, pick, place, limits, raw,
            uncertainty, around, seatedBy, up, grip);
    }

    /// <summary>The values with which touched nests are compared; null while these have faults, which have to be corrected first.</summary>
    private static TouchReference? ReferenceOf(Section root, Nest? nest, Layout layout, double? diameter, Pose? origin) =>
        root.Faults.None && nest is { } n && diameter is { } d && origin is { } o && SeatSolver.TrySeat(n, d / 2, out _) == SeatFault.None
            ? new(n, layout, d, o.PositionMetres)
            : null;

    private static Revision? Make(Section root, Draft d, byte[] content)
    {
        var (nest, diameter) = (d.Nest!.Value, d.Diameter!.Value);
        if (!SeatsAsTaught(root, d, nest, diameter, out var seat))
        {
            return null;
        }

        return new()
        {
            Fixture = d.Fixture!,
            Number = d.Number!.Value,
            Digest = Convert.ToHexStringLower(SHA256.HashData(content)),
            Content = content,
            Calibrated = d.Calibrated!,
            Nest = nest,
            Layout = d.Layout,
            TaughtDiameterMetres = diameter,
            TaughtOrigin = d.Origin!.Value,
            TaughtIn = d.TaughtIn,
            TaughtWith = d.TaughtWith,
            Frame = d.Frame!.Value,
            Touched = d.Touched,
            StandOffPickMetres = d.Pick,
            StandOffPlaceMetres = d.Place,
            Limits = d.Limits,
            ReturnsRawStock = d.ReturnsRawStock,
            MeasuredWith = d.MeasuredWith,
            SeatedBy = d.SeatedBy,
            Up = d.Up,
            Grip = d.Grip,
            Uncertainty = d.Uncertainty,
            Around = d.Around,
            TaughtSeat = seat,
        };
    }

    /// <summary>A revision that would refuse its own taught diameter has a fault.</summary>
    private static bool SeatsAsTaught(Section root, Draft d, in Nest nest, double diameter, out Seat seat)
    {
        var fault = SeatSolver.TrySeat(nest, diameter / 2, out seat);
        var said = fault switch
        {
            SeatFault.None when d.Limits.DiameterMetres is { } range && (diameter < range.From || diameter > range.To) => "it lies outside limits.diameter",
            SeatFault.None when seat.Sensitivity > d.Limits.Sensitivity + Plan.Rounding =>
                string.Create(CultureInfo.InvariantCulture, $"its sensitivity is {seat.Sensitivity:0.###}, above limits.sensitivity {d.Limits.Sensitivity}"),
            SeatFault.None when seat.HeldRadians < d.Limits.HeldRadians - Plan.Rounding =>
                string.Create(
                    CultureInfo.InvariantCulture, $"the seat axis is {seat.HeldRadians * 180 / Math.PI:0.##} deg from the edge of the cone of the contact "
                        + $"normals; {d.Limits.HeldRadians * 180 / Math.PI:0.##} deg are required"),
            SeatFault.None => null,
            SeatFault.NoContact => "stock of this diameter drops between the locators",
            SeatFault.NotHeld => "stock of this diameter touches both locators but is not held there",
            _ => "its contact lies beyond the end of a face",
        };
        if (said is not null)
        {
            root.Faults.Add(
                "taught.diameter", string.Create(CultureInfo.InvariantCulture, $"is {diameter:R} m: {said}; correct the nest, the limits or the diameter"));
        }

        return said is null;
    }

    private static CalibrationNote? ReadCalibration(Section section)
    {
        var at = section.Text("at", longest: 40);
        if (at is not null && !IsInstant(at))
        {
            section.Faults.Add(section.At("at"), $"is \"{at}\"; an instant such as 2026-11-20T09:12:00Z was expected");
        }

        var by = section.Text("by");
        var method = section.Text("method");
        var note = section.Text("note", mayBeEmpty: true);
        section.Finish();
        return at is null || by is null || method is null || note is null ? null : new(at, by, method, note);
    }

    /// <summary>A date and time with its zone: without a zone it would be another instant on another machine.</summary>
    private static bool IsInstant(string text) =>
        text is [.., 'Z'] or [.., '+' or '-', _, _, ':', _, _]
        && DateTimeOffset.TryParseExact(
            text, ["yyyy-MM-ddTHH:mm:ssK", "yyyy-MM-ddTHH:mm:ss.FFFFFFFK"], CultureInfo.InvariantCulture, DateTimeStyles.None, out _);

    private static Vector3? ReadPosition(Section section)
    {
        var (x, y, z) = (section.Length("x", Range.Place), section.Length("y", Range.Place), section.Length("z", Range.Place));
        section.Finish();
        return x is { } a && y is { } b && z is { } c ? new Vector3(a, b, c) : null;
    }

    private static Layout LayoutOf(Section root)
    {
        if (root.Objects("layout", required: false, 1, 2) is not { } rows)
        {
            return Layout.Single;
        }

        var read = rows.Select(ReadRow).ToArray();
        if (read is [{ } a, { } b] && a.Direction == b.Direction)
        {
            root.Faults.Add("layout", $"repeats along {a.Direction} twice; two different directions were expected");
        }

        return new(read.ElementAtOrDefault(0), read.ElementAtOrDefault(1));
    }

    private static LayoutRow? ReadRow(Section section)
    {
        var direction = section.Text("direction", longest: 1);
        if (direction is not (null or "u" or "v" or "w"))
        {
            section.Faults.Add(section.At("direction"), $"is \"{direction}\"; \"u\", \"v\" or \"w\" was expected");
        }

        var count = section.Whole("count", 1, 10_000);
        var pitch = section.Length("pitch", Range.Place);
        if (pitch == 0)
        {
            section.Faults.Add(section.At("pitch"), "is 0; a pitch other than 0 was expected");
        }

        section.Finish();
        return direction is not null && count is { } n && pitch is { } p ? new LayoutRow(direction[0], n, p) : null;
    }

    [GeneratedRegex(@"\A[A-Za-z0-9._-]{1,40}\z", RegexOptions.CultureInvariant)]
    private static partial Regex GaugePattern();

    [GeneratedRegex(@"\A[a-z0-9][a-z0-9-]{0,62}\z", RegexOptions.CultureInvariant)]
    private static partial Regex NamePattern();
}
