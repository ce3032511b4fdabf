namespace Stockseat.Seating.Locators;

/// <summary>What a locator is.</summary>
public enum LocatorKind
{
    /// <summary>A cylinder parallel to the stock's axis.</summary>
    Pin = 1,

    /// <summary>A flat surface.</summary>
    Face = 2,
}
