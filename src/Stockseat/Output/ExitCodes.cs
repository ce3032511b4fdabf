namespace Stockseat.Cli.Output;

/// <summary>What the exit codes say.</summary>
internal static class ExitCodes
{
    public const int Done = 0;

    /// <summary>Refused, or not whole.</summary>
    public const int Refused = 1;

    /// <summary>Could not do or check it.</summary>
    public const int Failed = 2;

    /// <summary>Wrong usage or configuration.</summary>
    public const int Usage = 64;
}
