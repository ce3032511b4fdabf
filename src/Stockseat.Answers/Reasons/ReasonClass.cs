namespace Stockseat.Answers.Reasons;

/// <summary>Who can do something about it.</summary>
public enum ReasonClass
{
    /// <summary>Whoever sent the request: correct it.</summary>
    Request = 1,

    /// <summary>Somebody at the cell: measure, recheck, adopt, or release a hold.</summary>
    Cell = 2,

    /// <summary>Nobody yet: ask again later.</summary>
    Service = 3,
}
