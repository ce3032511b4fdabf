using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;

namespace Stockseat.Fixtures.Calibration;

/// <summary>What came of a calibration.</summary>
/// <param name="Frame">The fitted frame; null when none follows from the touched nests.</param>
/// <param name="Locators">The fitted locators; null when they were not asked for, or can't be told.</param>
/// <param name="Text">The revision's file; null when there is a fault.</param>
/// <param name="Faults">What speaks against it, a sentence each.</param>
public sealed record CalibrationOutcome(TouchedFrame? Frame, LocatorFit? Locators, ReadOnlyMemory<byte>? Text, IReadOnlyList<string> Faults);
