namespace Stockseat.Fixtures.Planning;

/// <summary>
/// Best first. A small sensitivity alone is no merit: it means pins close together, or a flat vee, which hold the stock less. So it is the distance from both
/// limits that counts, in one unit: the angle between seat axis and contact, which the held angle bounds below and the sensitivity above (1/cos of it).
/// </summary>
public sealed class Ranking : IComparer<JudgedCandidate>
{
    /// <summary>Smaller differences are rounding: the next rule decides. In radians, in metres, in shares.</summary>
    private const double Step = 1e-9;

    public static Ranking BestFirst { get; } = new();

    public int Compare(JudgedCandidate? x, JudgedCandidate? y)
    {
        var (a, b) = (x!, y!);
        return First(
            BeforeGap(a, b),
            More(a.Gap?.Reading.Metres, b.Gap?.Reading.Metres),
            More(b.Sensitivity.From, a.Sensitivity.From));
    }

    /// <summary>Whether only the gap, or what comes after it, tells two apart.</summary>
    public static bool AreEqualButForGap(JudgedCandidate a, JudgedCandidate b) => BeforeGap(a, b) == 0;

    private static int BeforeGap(JudgedCandidate a, JudgedCandidate b) => First(
        b.Holds.CompareTo(a.Holds),
        More(a.Share, b.Share),
        More(a.MarginRadians, b.MarginRadians));

    private static int First(params ReadOnlySpan<int> orders)
    {
        foreach (var order in orders)
        {
            if (order != 0)
            {
                return order;
            }
        }

        return 0;
    }

    /// <summary>The larger first, what is absent last.</summary>
    private static int More(double? a, double? b) => Steps(b).CompareTo(Steps(a));

    /// <summary>In whole steps, so that the order stays transitive.</summary>
    private static double Steps(double? value) => value is { } v ? Math.Round(v / Step) : double.NegativeInfinity;
}
