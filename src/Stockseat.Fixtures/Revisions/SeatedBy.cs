namespace Stockseat.Fixtures.Revisions;

/// <summary>What seats the stock against its locators.</summary>
public enum SeatedBy
{
    /// <summary>Its own weight: the seat axis rises.</summary>
    Weight = 1,

    /// <summary>Something that pushes it, such as a spring or a person: the seat axis may lie level.</summary>
    Push = 2,
}
