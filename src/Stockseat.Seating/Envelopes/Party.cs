namespace Stockseat.Seating.Envelopes;

/// <summary>What takes part in a gap.</summary>
public enum PartyKind
{
    Stock = 1,
    Jaw,
    Palm,
    Pin,
    Face,
    Obstacle,
}

/// <summary>One of the two things that a gap is between.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">Its number from 1: of the jaw, of the locator, of the obstacle; 0 for stock and palm.</param>
/// <param name="Column">The column of its nest, counted from the nest that is worked at, in the first direction; 0 for the gripper. An obstacle belongs to nest
/// 0,0, since its place is stated from there; every other nest of the fixture sees it from its own place.</param>
/// <param name="Row">The same in the second direction.</param>
public readonly record struct Party(PartyKind Kind, int Number = 0, int Column = 0, int Row = 0);
