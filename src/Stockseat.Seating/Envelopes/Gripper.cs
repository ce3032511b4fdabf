namespace Stockseat.Seating.Envelopes;

/// <summary>A gripper around the stock, in the plan: jaws that close on the diameter, each a rectangle whose inner side touches the stock.</summary>
public sealed record Gripper
{
    /// <summary>How many jaws, evenly around, 1 to 8.</summary>
    public required int Jaws { get; init; }

    /// <summary>The width of a jaw, square to its radius, in metres.</summary>
    public required double JawWidthMetres { get; init; }

    /// <summary>The thickness of a jaw along its radius, outward, in metres.</summary>
    public required double JawThicknessMetres { get; init; }

    /// <summary>Where jaw 1 is: from +u towards +v, in radians; the fixed turn of the gripper is included.</summary>
    public required double ClockingRadians { get; init; }

    /// <summary>How far it opens beyond the stock, on the diameter, in metres; or <see cref="OpenToMetres"/>.</summary>
    public double? OpenByMetres { get; init; }

    /// <summary>The jaw-to-jaw diameter that it opens to, in metres.</summary>
    public double? OpenToMetres { get; init; }

    /// <summary>The jaw-to-jaw diameters that it can have, in metres.</summary>
    public required (double From, double To) StrokeMetres { get; init; }

    /// <summary>The palm's diameter, in metres; null when there is none, or none that matters.</summary>
    public double? PalmDiameterMetres { get; init; }

    /// <summary>How high the jaws' tips are above the ground of the plan, in metres; null: not stated, so that they may meet anything.</summary>
    public double? JawTipHeightMetres { get; init; }

    /// <summary>How high the palm is, in metres; null: not stated, so that it may meet anything.</summary>
    public double? PalmHeightMetres { get; init; }

    /// <summary>The jaw-to-jaw diameter when it is open around stock of a diameter, in metres.</summary>
    public double Open(double diameterMetres) => OpenToMetres ?? (diameterMetres + OpenByMetres!.Value);
}
