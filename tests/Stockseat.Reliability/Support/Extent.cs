using System.Globalization;

namespace Stockseat.Reliability.Support;

/// <summary>Whether the short or the long form runs, and from which seed.</summary>
internal static class Extent
{
    public static bool Long { get; } = Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1";

    public static int Times(int @short, int @long) => Long ? @long : @short;

    /// <summary>Random numbers whose seed is in the test's output; <c>STOCKSEAT_SEED</c> sets it again.</summary>
    public static Random Random() => new(Seed());

    /// <summary>The seed alone.</summary>
    public static int Seed()
    {
        var seed = int.TryParse(Environment.GetEnvironmentVariable("STOCKSEAT_SEED"), CultureInfo.InvariantCulture, out var given)
            ? given : System.Random.Shared.Next();
        Say($"STOCKSEAT_SEED={seed}");
        return seed;
    }

    public static void Say(string text) => TestContext.Current.TestOutputHelper?.WriteLine(text);
}
