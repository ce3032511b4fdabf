using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stockseat.Fixtures.Planning;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Commands;

/// <summary>What <c>nest plan</c> is asked with.</summary>
internal sealed class NestPlanOptions
{
    private readonly Option<double> _from =
        new("--from") { HelpName = "LENGTH", Description = "the smallest diameter of the range", Required = true, CustomParser = r => Common.Length(r) };
    private readonly Option<double> _to =
        new("--to") { HelpName = "LENGTH", Description = "the largest diameter of the range", Required = true, CustomParser = r => Common.Length(r) };
    private readonly Option<double[]> _pins = Many("--pin", "LENGTH", "a pin's diameter; may be given several times", r => Each(r, Common.Length));
    private readonly Option<double[]> _spacings =
        Many("--spacing", "LENGTH", "the distance between the centres of the two pins; may be given several times", r => Each(r, Common.Length));
    private readonly Option<HolePitch[]> _holes = Many(
        "--holes", "PITCH[,LEAST,MOST]", "a row of holes for the pins: spacings of any number of pitches, or of LEAST to MOST pitches", r => Each(r, Holes));
    private readonly Option<double[]> _vees = Many("--vee", "ANGLE", "a vee's included angle; may be given several times", r => Each(r, Included));
    private readonly Option<double?> _face = One(
        "--face", "LENGTH", "how far a vee's faces reach from its apex; without it, 10 % farther than where the largest stock touches them");
    private readonly Option<double[]?> _pitch = new("--pitch")
    {
        HelpName = "U[,V]",
        Description = "the pitch from nest to nest, across the seat axis and along it; without it there are no neighbours",
        CustomParser = r => Parts(r, 1, 2, "a pitch, or two pitches with a comma, for example 125mm,130mm"),
    };
    private readonly Option<double?> _gap = One(
        "--gap", "LENGTH", "the smallest gap allowed to neighbours and gripper; 0 unless stated: they may touch but not overlap");
    private readonly Option<double> _sensitivity = new("--sensitivity")
    {
        HelpName = "X", Description = "the largest sensitivity |dC/dR|: how far the centre moves per change of radius; above 1",
        DefaultValueFactory = _ => PlanningQuestion.UsualSensitivity, CustomParser = Sensitivity,
    };
    private readonly Option<double?> _held = new("--held-angle")
    {
        HelpName = "ANGLE", Description = "the smallest angle allowed between seat axis and contact; 5deg unless stated",
        CustomParser = r => Angle(r, r.Tokens[^1].Value, 0, 89, "angle"),
    };
    private readonly Option<double[]> _standOffs = Many(
        "--stand-off", "LENGTH", "the clearance to both locators when gripping or setting down (not the distance from which the robot approaches); "
            + "may be given several times: a nest has to allow them all",
        r => Each(r, Common.Length));
    private readonly GripperOptions _gripper = new();

    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[_from, _to, _pins, _spacings, _holes, _vees, _face, _pitch, _gap, _sensitivity, _held, _standOffs, .. _gripper.All])
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The question; null with all that is wrong with it.</summary>
    public PlanningQuestion? Read(ParseResult parsed, List<string> faults)
    {
        var pitch = parsed.GetValue(_pitch) ?? [];
        double[] standOffs = parsed.GetValue(_standOffs) ?? [];
        var question = new PlanningQuestion
        {
            RangeMetres = (parsed.GetValue(_from), parsed.GetValue(_to)),
            PinMetres = parsed.GetValue(_pins) ?? [],
            SpacingMetres = parsed.GetValue(_spacings) ?? [],
            Holes = parsed.GetValue(_holes) ?? [],
            VeeRadians = parsed.GetValue(_vees) ?? [],
            FaceMetres = parsed.GetValue(_face),
            PitchUMetres = pitch.Length > 0 ? pitch[0] : null,
            PitchVMetres = pitch.Length > 1 ? pitch[1] : null,
            GapMetres = parsed.GetValue(_gap) ?? 0,
            Sensitivity = parsed.GetValue(_sensitivity),
            HeldRadians = parsed.GetValue(_held) ?? Limits.UsualHeldRadians,
            Gripper = _gripper.Read(parsed, faults),
            StandOffMetres = standOffs.Length > 0 ? standOffs : [0],
        };
        Check(question, parsed, faults);
        return faults.Count == 0 ? question : null;
    }

    private void Check(PlanningQuestion question, ParseResult parsed, List<string> faults)
    {
        var unit = DisplayOptions.Of(parsed).Length;
        var (from, to) = question.RangeMetres;
        var (pins, spacings) = (question.PinMetres.Count > 0, question.SpacingMetres.Count + question.Holes.Count > 0);
        var count = Candidates.Count(question);
        Add(faults, from > to, $"--from {unit.Text(from)} is above --to {unit.Text(to)}; state the smallest diameter first");
        Add(
            faults, from < Plan.Reach.From || to > Plan.Reach.To, $"the range {unit.Text(from)} to {unit.Text(to)} is not within "
                + $"{unit.Text(Plan.Reach.From)} to {unit.Text(Plan.Reach.To)}: check the units");
        Add(
            faults, !pins && !spacings && question.VeeRadians.Count == 0,
            "there is nothing to choose from: name --pin with --spacing or --holes, or --vee, or both");
        Add(faults, pins && !spacings, "--pin needs --spacing or --holes: how far apart the pins may stand");
        Add(faults, spacings && !pins, "--spacing and --holes need --pin: the diameter of the pins");
        Add(faults, parsed.GetValue(_face) is not null && question.VeeRadians.Count == 0, "--face belongs to a vee; name --vee too, or leave --face out");
        Add(
            faults, parsed.GetValue(_gap) is not null && !question.HasGaps && faults.Count == 0,
            "--gap is the gap to neighbours and to the gripper; state --pitch or the gripper (--jaws …) too, or leave --gap out");
        Add(
            faults, count > Candidates.Most, $"{Rounded.Short(count, 0)} combinations of pins, spacings and vees are more than "
                + $"{Candidates.Most}; name fewer, or bound the holes with --holes PITCH,LEAST,MOST");
        if (faults.Count == 0 && Candidates.Of(question) is { All.Count: 0 } none)
        {
            faults.Add(none.Overlapping > 0
                ? $"the pins would overlap in all {none.Overlapping} combinations; name spacings above the pins' diameter"
                : $"no multiple of the holes' pitch holds {unit.Text(to)}; name a smaller pitch, or a spacing");
        }
    }

    private static void Add(List<string> faults, bool isOne, string fault)
    {
        if (isOne)
        {
            faults.Add(fault);
        }
    }

    internal static Option<double?> One(string name, string help, string description) =>
        new(name) { HelpName = help, Description = description, CustomParser = r => Common.Length(r) };

    internal static double[]? Parts(ArgumentResult result, int least, int most, string expected)
    {
        var parts = result.Tokens[^1].Value.Split(',');
        if (parts.Length < least || parts.Length > most)
        {
            result.AddError($"'{result.Tokens[^1].Value}' is not {expected}");
            return null;
        }

        return [.. parts.Select(p => Common.Length(result, p))];
    }

    /// <summary>An angle with its unit, between two in degrees, read to radians.</summary>
    internal static double Angle(ArgumentResult result, string text, double from, double to, string what)
    {
        if (Quantity.TryParseAngle(text, allowSign: from < 0, out var radians) != QuantityFault.None
            || radians < from * Math.PI / 180 || radians > to * Math.PI / 180)
        {
            result.AddError(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"'{text}' is not an {what} from {Rounded.Short(from, 3)} deg to {Rounded.Short(to, 3)} deg with its unit, for example 90deg; "
                        + $"units are deg and rad"));
        }

        return radians;
    }

    private static Option<T[]> Many<T>(string name, string help, string description, Func<ArgumentResult, T[]> parse) =>
        new(name) { HelpName = help, Description = description, Arity = ArgumentArity.OneOrMore, CustomParser = parse };

    private static T[] Each<T>(ArgumentResult result, Func<ArgumentResult, string, T> read) => [.. result.Tokens.Select(t => read(result, t.Value))];

    private static double Included(ArgumentResult result, string text) => Angle(result, text, 0.1, 179.9, "included angle");

    private static HolePitch Holes(ArgumentResult result, string text)
    {
        var parts = text.Split(',');
        var pitch = Common.Length(result, parts[0]);
        if (parts.Length == 1)
        {
            return new(pitch);
        }

        if (parts.Length == 3 && Whole(parts[1], out var least) && Whole(parts[2], out var most) && least <= most)
        {
            return new(pitch, least, most);
        }

        result.AddError($"'{text}' is not a row of holes; a pitch was expected, or a pitch with the least and the most pitches between two pins, for example "
            + $"25mm,2,5");
        return default;
    }

    private static bool Whole(string text, out int number) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number is >= 1 and <= 1_000_000;

    private static double Sensitivity(ArgumentResult result)
    {
        var text = result.Tokens[^1].Value;
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var limit) || !(limit > 1) || limit > 1000)
        {
            result.AddError($"'{text}' is not a limit of the sensitivity; a number above 1, up to 1000, was expected: every nest has more than 1");
        }

        return limit;
    }
}
