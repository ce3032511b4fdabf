namespace Stockseat.Seating.Quantities;

/// <summary>Why a text is not a quantity.</summary>
public enum QuantityFault
{
    /// <summary>It is a quantity.</summary>
    None,

    /// <summary>There is no text.</summary>
    Empty,

    /// <summary>Not plain digits with at most one point between digits: a sign, an exponent, a comma, NaN, other digits.</summary>
    Malformed,

    /// <summary>A number without a unit.</summary>
    UnitMissing,

    /// <summary>A unit that is not known.</summary>
    UnitUnknown,

    /// <summary>More than <see cref="Quantity.MaxDigits"/> digits.</summary>
    TooLong,
}
