using System.Globalization;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.State;

/// <summary>
/// Whether rechecks have proven a revision: two masters whose diameters differ by at least a fifth of the stated range in nest 0,0, and one of any diameter
/// in the far nest of each direction of the layout. That finds a flipped axis, a wrong taught diameter, a wrong spacing, swapped counts.
/// </summary>
public static class Proof
{
    /// <summary>How much of the stated range the two masters differ by, at least.</summary>
    private const double Share = 0.2;

    /// <summary>A recheck that is still lacking.</summary>
    /// <param name="Column">The nest's column.</param>
    /// <param name="Row">The nest's row.</param>
    /// <param name="AtMostMetres">A master of this diameter or less will do; null: no smaller one does.</param>
    /// <param name="AtLeastMetres">A master of this diameter or more will do; null: no larger one does. Both null: any will.</param>
    public readonly record struct Lack(int Column, int Row, double? AtMostMetres, double? AtLeastMetres);

    /// <summary>What is lacking; none when the revision is proven.</summary>
    public static IReadOnlyList<Lack> Lacks(Revision revision, IEnumerable<PassedRecheck> passed)
    {
        var all = passed.ToList();
        var lacks = new List<Lack>();
        var home = all.Where(p => (p.Column, p.Row) == (0, 0)).Select(p => p.MasterMetres).ToArray();
        var (least, most) = Range(revision);
        var apart = Share * (most - least);
        if (home.Length == 0)
        {
            lacks.Add(new(0, 0, null, null));
        }
        else if (home.Max() - home.Min() < apart - 1e-9)
        {
            lacks.Add(new(0, 0, home.Max() - apart >= least ? home.Max() - apart : null, home.Min() + apart <= most ? home.Min() + apart : null));
        }

        foreach (var (column, row) in FarNests(revision).Where(n => !all.Exists(p => (p.Column, p.Row) == n)))
        {
            lacks.Add(new(column, row, null, null));
        }

        return lacks;
    }

    /// <summary>Those of the rechecks that a proof needs: the smallest and the largest master in nest 0,0, the newest in each far nest.</summary>
    internal static IEnumerable<PassedRecheck> Needed(Revision revision, IReadOnlyCollection<PassedRecheck> passed)
    {
        var home = passed.Where(p => (p.Column, p.Row) == (0, 0)).ToList();
        return home.Count == 0 ? Far() : [home.MinBy(p => p.MasterMetres)!, home.MaxBy(p => p.MasterMetres)!, .. Far()];
        IEnumerable<PassedRecheck> Far() => FarNests(revision).Select(n => passed.LastOrDefault(p => (p.Column, p.Row) == n)).OfType<PassedRecheck>();
    }

    /// <summary>What to do, in words.</summary>
    /// <param name="lack">What is lacking.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static string Said(Lack lack, LengthUnit unit)
    {
        var master = (lack.AtMostMetres, lack.AtLeastMetres) switch
        {
            ({ } atMost, { } atLeast) => $"a master of {unit.Text(atMost)} or less, or of {unit.Text(atLeast)} or more,",
            ({ } atMost, null) => $"a master of {unit.Text(atMost)} or less",
            (null, { } atLeast) => $"a master of {unit.Text(atLeast)} or more",
            _ => "a master",
        };
        return string.Create(CultureInfo.InvariantCulture, $"seat {master} in nest {lack.Column},{lack.Row}");
    }

    private static (double Least, double Most) Range(Revision revision) => revision.Limits.DiameterMetres is { } stated ? (stated.From, stated.To)
        : revision.Envelopes().Pick is { } pick ? (pick.Least.DiameterMetres, pick.Greatest.DiameterMetres)
        : (revision.TaughtDiameterMetres, revision.TaughtDiameterMetres);

    private static IEnumerable<(int Column, int Row)> FarNests(Revision revision)
    {
        var layout = revision.Layout;
        if (layout.Columns > 1)
        {
            yield return (layout.Columns - 1, 0);
        }

        if (layout.Rows > 1)
        {
            yield return (0, layout.Rows - 1);
        }
    }
}
