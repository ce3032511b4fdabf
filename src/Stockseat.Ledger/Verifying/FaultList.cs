namespace Stockseat.Ledger.Verifying;

/// <summary>The first faults, and how many more there are.</summary>
internal sealed class FaultList
{
    private readonly List<LedgerFault> _listed = [];
    private long _more;
    private long _last;

    public bool Any => _listed.Count > 0;

    public void Add(long serial, string kind, string text)
    {
        if (_listed.Count < LedgerVerifier.MostFaults)
        {
            _listed.Add(new(serial, kind, text));
        }
        else
        {
            _more++;
            _last = Math.Max(_last, serial);
        }
    }

    /// <summary>Whether there is a fault above a serial and up to another one.</summary>
    public bool HasAny(long above, long upTo) => _listed.Exists(f => f.Serial > above && f.Serial <= upTo);

    /// <summary>Adds the faults of another list.</summary>
    public void Add(FaultList other)
    {
        other._listed.ForEach(f => Add(f.Serial, f.Kind, f.Text));
        _more += other._more;
        _last = Math.Max(_last, other._last);
    }

    /// <summary>All faults in the order of their serials; the last one says how many are not listed.</summary>
    public IReadOnlyList<LedgerFault> InOrder()
    {
        var all = _listed.OrderBy(f => f.Serial).ToList(); // A stable sort.
        if (_more > 0)
        {
            var dropped = all[^1];
            all[^1] = new(Math.Max(_last, dropped.Serial), FaultKinds.More, $"and {_more + 1} more faults, up to entry {Math.Max(_last, dropped.Serial)}");
        }

        return all;
    }
}
