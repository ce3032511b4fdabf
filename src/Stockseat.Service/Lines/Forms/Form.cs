namespace Stockseat.Service.Lines.Forms;

/// <summary>How the replies to a client look, so that what it has for a parser can read them.</summary>
public sealed record Form
{
    /// <summary>The built-in form that names every field.</summary>
    public static Form Named { get; } = new() { Name = "named" };

    /// <summary>Its name in the configuration.</summary>
    public required string Name { get; init; }
}
