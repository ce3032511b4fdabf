namespace Stockseat.Cli.Output;

/// <summary>The exit codes.</summary>
internal static class ExitCodes
{
    public const int Done = 0;

    /// <summary>Refused, not intact, or a recheck that missed.</summary>
    public const int Refused = 1;

    /// <summary>Could not be done or checked.</summary>
    public const int Failed = 2;

    /// <summary>Wrong usage or configuration.</summary>
    public const int Usage = 64;
}
