using System.Globalization;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>What looks wrong about when and where a revision was calibrated.</summary>
internal static class PlaceAdvice
{
    /// <summary>A clock may be this far off.</summary>
    private static readonly TimeSpan Slack = TimeSpan.FromMinutes(5);

    /// <summary>Further from base than a robot that tends a machine reaches. Our own choice.</summary>
    private const double FarMetres = 4;

    /// <summary>
    /// So many times further from, or nearer to, base than the other fixtures: an inch value taken for millimetres, or the other way. Our own choice.
    /// </summary>
    private const double Unlike = 8;

    public static IEnumerable<Finding> Of(Revision revision, CheckedAt? checkedAt, LengthUnit unit)
    {
        var reach = revision.TaughtOrigin.PositionMetres.Length;
        var others = checkedAt?.Others.Select(o => o.TaughtOrigin.PositionMetres.Length).ToArray() ?? [];
        if (reach > FarMetres || others.Any(o => o > 0 && reach > Unlike * o))
        {
            yield return Finding.Advice("taught.position", $"the taught position is {unit.Text(reach)} from the robot's base"
                + $"{(others.Length > 0 ? $"; the other fixtures are {unit.Text(others.Min())} to {unit.Text(others.Max())} from it" : "; less than "
                    + $"{unit.Text(FarMetres)} is usual")}. Check the units of x, y and z: millimetres taken for inches would look like this");
        }
        else if (others.Any(o => reach * Unlike < o))
        {
            yield return Finding.Advice("taught.position", $"the taught position is only {unit.Text(reach)} from the robot's base; the other fixtures are "
                + $"{unit.Text(others.Min())} to {unit.Text(others.Max())} from it. Check the units of x, y and z: inches taken for millimetres would "
                + "look like this");
        }

        if (checkedAt is { Now: var now } && DateTimeOffset.TryParse(
            revision.Calibrated.At, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at) && at > now + Slack)
        {
            yield return Finding.Advice("calibrated.at", $"calibrated.at is {revision.Calibrated.At}, which is still to come. Correct it, or the clock");
        }
    }
}
