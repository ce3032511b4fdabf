namespace Stockseat.Seating.Uncertainty;

/// <summary>How components are called.</summary>
public static class ComponentNames
{
    /// <summary>Its name: where a fixture's file has a key for it, that key.</summary>
    public static string Name(this Component component)
    {
        var name = component.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }
}
