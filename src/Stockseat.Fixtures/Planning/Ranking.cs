namespace Stockseat.Fixtures.Planning;

/// <summary>
/// Best first. A small sensitivity alone is not an advantage: it means pins close together, or a flat vee, and both hold the stock less firmly. So the
/// distance from both limits counts, in one unit: the angle between seat axis and contact. The held angle limits that angle from below, and the
/// sensitivity, 1/cos of it, from above.
/// </summary>
public sealed class Ranking : IComparer<JudgedCandidate>
{
    /// <summary>Smaller differences are rounding, and the next rule decides. In radians, in metres, or as a share.</summary>
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

    /// <summary>Whether only the gap, or a rule after it, can rank the two.</summary>
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

    /// <summary>The larger first, an absent value last.</summary>
    private static int More(double? a, double? b) => Steps(b).CompareTo(Steps(a));

    /// <summary>Compared in whole steps, so that the order stays transitive.</summary>
    private static double Steps(double? value) => value is { } v ? Math.Round(v / Step) : double.NegativeInfinity;
}
