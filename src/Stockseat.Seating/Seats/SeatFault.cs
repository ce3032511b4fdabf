namespace Stockseat.Seating.Seats;

/// <summary>Why there is no seat.</summary>
public enum SeatFault
{
    /// <summary>There is one.</summary>
    None,

    /// <summary>No circle of this size touches both locators: the stock drops between them.</summary>
    NoContact,

    /// <summary>A circle touches both, but the seating force does not hold it there.</summary>
    NotHeld,

    /// <summary>A contact lies beyond the end of its face.</summary>
    ContactOffFace,
}
