using System.Globalization;
using System.Text.Json;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>What looks wrong about the directions of a revision: a plausible file whose robot would go elsewhere. Never a fault.</summary>
internal static class StatementAdvice
{
    private const double Degree = Math.PI / 180;

    /// <summary>A tool further from the way into the plan than this is unusual for stock that stands.</summary>
    private const double UsualToolRadians = 30 * Degree;

    /// <summary>A normal that rises more than this belongs to stock that stands; one that falls more than this too, and it was flipped.</summary>
    private const double StandingRadians = 45 * Degree;

    /// <summary>A seat axis that rises less than this is level: weight does not seat the stock. Our own choice.</summary>
    private const double LevelRadians = 3 * Degree;

    /// <summary>A turn below this is rounding of what was typed.</summary>
    private const double LeastSlipRadians = 0.05 * Degree;

    /// <summary>A turn above this was meant.</summary>
    private const double LargestSlipRadians = 5 * Degree;

    /// <summary>How much longer or shorter than 1 a rounded unit vector may be; others are directions of any length.</summary>
    private const double NearlyUnit = 0.02;

    /// <summary>What a rounded direction may move the far nest by when the revision does not say how sure it is. Our own choice.</summary>
    private const double UnstatedMetres = 0.0001;

    public static IEnumerable<Finding> Of(Revision revision, LengthUnit unit)
    {
        var statement = BaseStatement.Of(revision);
        return [.. Tool(statement), .. Reach(revision), .. Seat(revision, statement), .. Turned(revision), .. Rounded(revision, unit)];
    }

    private static IEnumerable<Finding> Tool(BaseStatement statement)
    {
        if (Math.Abs(statement.NormalRiseRadians) > StandingRadians && statement.ToolFromIntoPlanRadians > UsualToolRadians)
        {
            yield return Finding.Advice("taught.orientation",
                $"the tool's z axis is {Degrees(statement.ToolFromIntoPlanRadians)} deg from the way into the plan; "
                + $"for stock that stands 0 to {Degrees(UsualToolRadians)} deg is usual. Check the orientation, and the normal of the frame");
        }
    }

    /// <summary>Nests behind one another as the tool comes: so it looks when seat axis and normal of a bed were swapped.</summary>
    private static IEnumerable<Finding> Reach(Revision revision)
    {
        var along = new[] { revision.Layout.First, revision.Layout.Second }.Any(r => r is { Direction: 'v', Count: > 1 });
        var against = Math.Acos(Math.Clamp(-Vector3.Dot(revision.TaughtOrigin.Orientation.Apply(new(0, 0, 1)), revision.Frame.V), -1, 1));
        if (along && against < UsualToolRadians)
        {
            yield return Finding.Advice("frame", $"nests repeat along the seat axis, and the tool comes along it too ({Degrees(against)} deg off), so that "
                + "each nest would stand in the tool's way to the next one. Check whether seat axis and normal are swapped");
        }
    }

    private static IEnumerable<Finding> Seat(Revision revision, BaseStatement statement)
    {
        var rise = statement.SeatAxisRiseRadians;
        if (rise < -LevelRadians)
        {
            yield return Finding.Advice("frame", $"the seat axis points {Degrees(-rise)} deg downward: thicker stock would move down. It points away from the "
                + "locators, against what seats the stock. Turn it round, or state \"up\" where base z is not up");
        }
        else if (rise < LevelRadians && revision.SeatedBy == SeatedBy.Weight)
        {
            yield return Finding.Advice("frame", $"the seat axis lies level (it rises {Degrees(rise)} deg), so weight does not seat the stock. State "
                + "\"seatedBy\": \"push\" where something pushes it, or give the frame its slope");
        }
    }

    /// <summary>A plan that is turned a little against the taught tool: one of the two was typed wrongly, or rounded.</summary>
    private static IEnumerable<Finding> Turned(Revision revision)
    {
        var turn = SmallestTurn(revision.TaughtOrigin.Orientation, revision.Frame);
        if (turn is > LeastSlipRadians and < LargestSlipRadians)
        {
            yield return Finding.Advice("taught.orientation", $"the frame and the taught orientation differ by {Degrees(turn)} deg from a multiple of 90 deg; "
                + "0 is usual, since a tool is mostly taught square to the fixture. Compare the two, and state more digits where one was rounded");
        }
    }

    /// <summary>The smallest turn between the plan's axes and the tool's axes, whichever axis of the one is along which of the other.</summary>
    private static double SmallestTurn(in Rotation orientation, in PlanFrame frame)
    {
        var tool = new[] { orientation.Apply(new(1, 0, 0)), orientation.Apply(new(0, 1, 0)), orientation.Apply(new(0, 0, 1)) };
        double Largest(Vector3 axis) => tool.Max(t => Math.Abs(Vector3.Dot(t, axis)));

        // The trace of the turn that is left once each axis was given its nearest one.
        var trace = Largest(frame.U) + Largest(frame.V) + Largest(frame.W);
        return Math.Acos(Math.Clamp((trace - 1) / 2, -1, 1));
    }

    /// <summary>Components such as 0.42 and 0.91 for a direction at 24.8 deg: what they leave out grows with the distance.</summary>
    private static IEnumerable<Finding> Rounded(Revision revision, LengthUnit unit)
    {
        var far = revision.Layout.Corners().Select(c => revision.Layout.OffsetBase(revision.Frame, c.Column, c.Row).Length).DefaultIfEmpty(0).Max();
        var allowed = revision.Limits.UncertaintyMetres ?? UnstatedMetres;
        using var content = JsonDocument.Parse(revision.Content);
        var frame = content.RootElement.GetProperty("frame");
        foreach (var key in new[] { "seatAxis", "normal" })
        {
            if (frame.TryGetProperty(key, out var direction) && Left(direction) is var left && left * far > allowed)
            {
                yield return Finding.Advice($"frame.{key}",
                    $"its components are rounded so that its direction may be {Degrees(left)} deg off, which moves the far "
                    + $"nest by up to {unit.Text(left * far)}. State more digits, or state the frame by its turns (aboutZ, thenY, thenX)");
            }
        }
    }

    /// <summary>How far the direction of a rounded unit vector may be off, in radians; 0 for one that is exact or of any length.</summary>
    private static double Left(JsonElement direction)
    {
        var parts = new[] { "x", "y", "z" }.Select(p => direction.GetProperty(p)).ToArray();
        var length = Math.Sqrt(parts.Sum(p => p.GetDouble() * p.GetDouble()));
        if (Math.Abs(length - 1) is < 1e-9 or > NearlyUnit)
        {
            return 0;
        }

        var decimals = parts.Max(p => p.GetRawText() is var text && text.IndexOf('.', StringComparison.Ordinal) is >= 0 and var point
            ? text.Length - point - 1 : 0);
        return decimals == 0 ? 0 : Math.Sqrt(2) * 0.5 * Math.Pow(10, -decimals);
    }

    private static string Degrees(double radians) => (radians / Degree).ToString("0.##", CultureInfo.InvariantCulture);
}
