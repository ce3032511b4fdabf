namespace Stockseat.Answers.Reasons;

/// <summary>Who can mend it.</summary>
public enum ReasonClass
{
    /// <summary>Mend the request.</summary>
    Request = 1,

    /// <summary>Do something at the cell: measure, recheck, adopt, release.</summary>
    Cell = 2,

    /// <summary>Ask again later.</summary>
    Service = 3,
}
