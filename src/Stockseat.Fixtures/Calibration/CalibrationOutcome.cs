using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;

namespace Stockseat.Fixtures.Calibration;

/// <summary>The result of a calibration.</summary>
/// <param name="Frame">The fitted frame; null when the touched nests give none.</param>
/// <param name="Locators">The fitted locators; null when they were not asked for, or can't be found from the touched nests.</param>
/// <param name="Text">The text of the revision's file; null when there is a fault.</param>
/// <param name="Faults">The faults, one sentence each.</param>
public sealed record CalibrationOutcome(TouchedFrame? Frame, LocatorFit? Locators, ReadOnlyMemory<byte>? Text, IReadOnlyList<string> Faults)
{
    /// <summary>How far the fitted frame is turned from that of a revision; null when there is no fitted one.</summary>
    public FrameTurn? TurnFrom(Revision drawing) => Frame is { } frame ? FrameTurn.Between(drawing.Frame, frame.Fit.Frame) : null;
}
