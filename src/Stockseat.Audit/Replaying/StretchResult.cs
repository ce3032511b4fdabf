namespace Stockseat.Audit.Replaying;

/// <summary>The result of a stretch.</summary>
internal sealed class StretchResult
{
    private readonly List<ReplayDifference> _differences = [];

    /// <summary>The first serial that was replayed; 0 when there was none.</summary>
    public long First { get; set; }

    public long Last { get; set; }

    public long Answers { get; set; }

    public long Refusals { get; set; }

    public long Others { get; set; }

    public long Same { get; set; }

    public long Within { get; set; }

    public long Given { get; set; }

    public long MoreDifferences { get; private set; }

    /// <summary>Why it ended before its last serial; null when it did not.</summary>
    public string? Unreadable { get; set; }

    public void Differs(ReplayDifference difference)
    {
        if (_differences.Count < LedgerReplay.MostDifferences)
        {
            _differences.Add(difference);
        }
        else
        {
            MoreDifferences++;
        }
    }

    /// <summary>Adds the result of a later stretch.</summary>
    public void Add(ReplayResult next)
    {
        First = First == 0 ? next.First : First;
        Last = next.First == 0 ? Last : next.Last;
        (Answers, Refusals, Others) = (Answers + next.Answers, Refusals + next.Refusals, Others + next.Others);
        (Same, Within, Given) = (Same + next.Same, Within + next.Within, Given + next.Given);
        foreach (var difference in next.Differences)
        {
            Differs(difference);
        }

        MoreDifferences += next.MoreDifferences;
        Unreadable ??= next.Unreadable;
    }

    public ReplayResult ToResult() => new(First, Last, Answers, Refusals, Others, Same, Within, Given, _differences, MoreDifferences, Unreadable);
}
