namespace Stockseat.Seating.Envelopes;

/// <summary>How the jaws stand.</summary>
public enum Jaws
{
    /// <summary>The gap is not one of the jaws, the palm or gripped stock.</summary>
    None,

    /// <summary>On the stock; of the stock itself: gripped, off its locators by the stand-off.</summary>
    Closed,

    /// <summary>Open around it.</summary>
    Open,
}

/// <summary>How far two parties are apart at a diameter.</summary>
/// <param name="Mine">The stock in the nest that is worked at, or a part of the gripper there.</param>
/// <param name="Theirs">What it may meet.</param>
/// <param name="Jaws">How the jaws stand.</param>
/// <param name="Metres">The gap, in metres; below 0 they overlap by about so much.</param>
public readonly record struct GapReading(Party Mine, Party Theirs, Jaws Jaws, double Metres)
{
    /// <summary>
    /// Whether it is an open jaw to the stock that it is around: that is how far the gripper is made to open, and the wanted gap is not asked of it.
    /// </summary>
    public bool IsOpening => Mine.Kind == PartyKind.Jaw && Theirs == new Party(PartyKind.Stock);

    /// <summary>Whether it counts as tight: an opening does only when there is none.</summary>
    public bool Counts => !IsOpening || Metres <= 0;
}
