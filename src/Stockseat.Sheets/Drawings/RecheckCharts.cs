using Stockseat.Answers.Advising;

namespace Stockseat.Sheets.Drawings;

/// <summary>Rechecks as run charts: their misses along the seat axis and across it, with the control limits of each revision.</summary>
public sealed class RecheckCharts
{
    private readonly IReadOnlyList<ChartedRecheck> _rechecks;

    /// <summary>Computes the limits.</summary>
    /// <param name="rechecks">The rechecks, 1 or more, oldest first.</param>
    public RecheckCharts(IReadOnlyList<ChartedRecheck> rechecks)
    {
        _rechecks = rechecks;
        Sections = TrendSection.Of([.. rechecks.Select(r => (r.Revision, r.Along, r.Across))]);
        Charts =
        [
            Chart("along the seat axis", r => r.Along, u => u.Along, s => s.Along), Chart("across the seat axis", r => r.Across, u => u.Across, s => s.Across),
        ];
    }

    /// <summary>Which rechecks belong to which revision, with their control limits.</summary>
    public IReadOnlyList<TrendSection> Sections { get; }

    /// <summary>The charts.</summary>
    public RunChart[] Charts { get; }

    /// <summary>How the control limits come about, and from when on there are some.</summary>
    public string Limits
    {
        get
        {
            var last = Sections[^1];
            return $"Control limits: mean ± 2.66 times the mean moving range of one revision, from {IndividualsLimits.Enough} rechecks on"
                + $"{(last.Along is null ? $"; revision {last.Revision} has {last.Count}" : "")}.";
        }
    }

    private RunChart Chart(
        string name, Func<ChartedRecheck, double> miss, Func<(double Along, double Across), double> expected, Func<TrendSection, IndividualsLimits?> limits) =>
        new(
            name,
            [
                .. Sections.SelectMany(s => _rechecks.Skip(s.First).Take(s.Count).Select(r => new RunPoint(
                    r.At, miss(r), r.Expected is { } u ? expected(u) : null, r.Limit, r.Passed, limits(s)?.Beyond(miss(r)) == true))),
            ],
            [.. Sections.Select(s => new RunSection(s.Revision, s.First, s.Count, limits(s) is { } l ? (l.Mean, l.Lower, l.Upper) : null))]);
}
