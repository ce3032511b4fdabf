namespace Stockseat.Seating.Uncertainty;

/// <summary>The names of components and distributions.</summary>
public static class ComponentNames
{
    /// <summary>Whether its value is an angle, in radians; else it is a length, in metres.</summary>
    public static bool IsAngle(this Component component) => component is Component.LocatorAngle or Component.FrameAngle or Component.Lean;

    /// <summary>The name of a distribution.</summary>
    public static string Name(this Distribution distribution) => distribution switch
    {
        Distribution.Rectangular => "rectangular",
        Distribution.Arcsine => "arcsine",
        _ => "normal",
    };

    /// <summary>Its name: the key in a fixture's file, where there is one for it.</summary>
    public static string Name(this Component component)
    {
        var name = component.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }
}
