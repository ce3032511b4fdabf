namespace Stockseat.Seating.Envelopes;

/// <summary>Where the jaws are.</summary>
public enum Jaws
{
    /// <summary>The gap has nothing to do with the jaws, the palm or gripped stock.</summary>
    None,

    /// <summary>On the stock. For the gap of the stock itself: gripped, and off its locators by the stand-off.</summary>
    Closed,

    /// <summary>Open, around the stock.</summary>
    Open,
}

/// <summary>How far apart two parties are at a diameter.</summary>
/// <param name="Mine">The stock in the nest that is worked at, or a part of the gripper there.</param>
/// <param name="Theirs">The part that it may meet.</param>
/// <param name="Jaws">Where the jaws are.</param>
/// <param name="Metres">The gap, in metres; below 0 they overlap by about that much.</param>
public readonly record struct GapReading(Party Mine, Party Theirs, Jaws Jaws, double Metres)
{
    /// <summary>
    /// Whether the gap is from an open jaw to the stock between the jaws: that gap is how far the gripper opens, so the wanted gap is not asked of it.
    /// </summary>
    public bool IsOpening => Mine.Kind == PartyKind.Jaw && Theirs == new Party(PartyKind.Stock);

    /// <summary>Whether the gap can be the tight spot; the opening of the jaws can only when it is 0 or less.</summary>
    public bool Counts => !IsOpening || Metres <= 0;
}
