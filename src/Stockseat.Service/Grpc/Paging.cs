using System.Globalization;

namespace Stockseat.Service.Grpc;

/// <summary>Pages of what a call lists.</summary>
internal static class Paging
{
    /// <summary>The largest page.</summary>
    public const int Largest = 1000;

    private const int Usual = 100;

    /// <summary>How many are on a page.</summary>
    public static int Size(int stated) => stated switch
    {
        0 => Usual,
        > 0 and <= Largest => stated,
        _ => throw Calls.Malformed($"page_size is {stated}; 1 to {Largest}, or 0 for {Usual}, was expected"),
    };

    /// <summary>Where a page begins.</summary>
    /// <param name="token">The token of the page before; empty: there was none.</param>
    /// <param name="first">Where the first page begins.</param>
    public static long Start(string token, long first) =>
        token.Length == 0 ? first
        : long.TryParse(token, NumberStyles.None, CultureInfo.InvariantCulture, out var start) ? start
        : throw Calls.Malformed("page_token is not one that this service gave");

    /// <summary>The token of the page after, as it is given.</summary>
    public static string Token(long start) => start.ToString(CultureInfo.InvariantCulture);
}
