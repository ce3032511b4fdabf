using System.CommandLine;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Cli.Commands;

/// <summary>A gripper on the command line: all of its options, or none.</summary>
internal sealed class GripperOptions
{
    private readonly Option<int?> _jaws = new("--jaws")
    {
        HelpName = "N", Description = "the gripper: how many jaws, evenly spaced, 1 to 8", CustomParser = r => (int)Common.Whole(r, "number of jaws", 8),
    };
    private readonly Option<double?> _width = NestPlanOptions.One("--jaw-width", "LENGTH", "the width of a jaw, square to its radius");
    private readonly Option<double?> _thickness = NestPlanOptions.One("--jaw-thickness", "LENGTH", "the thickness of a jaw, outward along its radius");
    private readonly Option<double?> _clocking = new("--clocking")
    {
        HelpName = "ANGLE", Description = "the angle of jaw 1, from +u (across) towards +v (the seat axis)",
        CustomParser = r => NestPlanOptions.Angle(r, r.Tokens[^1].Value, -360, 360, "angle"),
    };
    private readonly Option<double?> _openBy =
        NestPlanOptions.One("--open-by", "LENGTH", "how far the gripper opens beyond the stock, on the diameter; or give --open-to");
    private readonly Option<double?> _openTo = NestPlanOptions.One("--open-to", "LENGTH", "the jaw-to-jaw diameter to which the gripper opens");
    private readonly Option<double[]?> _stroke = new("--stroke")
    {
        HelpName = "FROM,TO", Description = "the smallest and the largest jaw-to-jaw diameter",
        CustomParser = r => NestPlanOptions.Parts(r, 2, 2, "two jaw-to-jaw diameters with a comma, for example 40mm,115mm"),
    };
    private readonly Option<double?> _palm = NestPlanOptions.One("--palm", "LENGTH", "the palm's diameter, where it reaches down to the locators' height");

    public IEnumerable<Option> All => [_jaws, _width, _thickness, _clocking, _openBy, _openTo, _stroke, _palm];

    /// <summary>The gripper; null when there is none, or with what is wrong with it.</summary>
    public Gripper? Read(ParseResult parsed, List<string> faults)
    {
        if (All.All(o => parsed.GetResult(o) is null))
        {
            return null;
        }

        var missing = new Option[] { _jaws, _width, _thickness, _clocking, _stroke }.Where(o => parsed.GetResult(o) is null).Select(o => o.Name)
            .Concat(parsed.GetResult(_openBy) is null && parsed.GetResult(_openTo) is null ? ["--open-by (or --open-to)"] : []).ToArray();
        if (missing.Length > 0)
        {
            faults.Add($"the gripper lacks {string.Join(", ", missing)}; state them too, or leave out all options of the gripper");
            return null;
        }

        if (parsed.GetResult(_openBy) is not null && parsed.GetResult(_openTo) is not null)
        {
            faults.Add("the gripper has both --open-by and --open-to; state only one of them");
        }

        if (parsed.GetValue(_stroke) is not [var from, var to] || from >= to)
        {
            faults.Add("--stroke begins with the larger diameter; state the smallest jaw-to-jaw diameter first, for example 40mm,115mm");
            return null;
        }

        return new()
        {
            Jaws = parsed.GetValue(_jaws)!.Value,
            JawWidthMetres = parsed.GetValue(_width)!.Value,
            JawThicknessMetres = parsed.GetValue(_thickness)!.Value,
            ClockingRadians = parsed.GetValue(_clocking)!.Value,
            OpenByMetres = parsed.GetValue(_openBy),
            OpenToMetres = parsed.GetValue(_openTo),
            StrokeMetres = (from, to),
            PalmDiameterMetres = parsed.GetValue(_palm),
        };
    }
}
