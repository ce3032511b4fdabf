using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Output;

/// <summary>Which diameters a revision allows and why, and the gaps: in the unit of the display for people, in metres for machines.</summary>
internal static class EnvelopeView
{
    /// <summary>How many of the smallest gaps are shown at each diameter.</summary>
    private const int Shown = 6;

    public static void Print(Revision revision, LengthUnit unit)
    {
        var envelopes = revision.Envelopes();
        Print("pick", envelopes.Pick, revision, unit);
        Print("place", envelopes.Place, revision, unit);
        if (envelopes.Pick is not { } pick)
        {
            return;
        }

        if (revision.Limits.DiameterMetres is not null && envelopes.Held is { } held)
        {
            Plain.Line(
                $"  Without limits.diameter, a pick would allow {unit.Short(held.Least.DiameterMetres)} to {unit.Text(held.Greatest.DiameterMetres)}.");
            Reasons(held, revision, unit);
        }

        var (plan, diameters) = (revision.PlanFor(place: false), Diameters(revision, pick));
        var gaps = diameters.Select(d => Gaps.At(plan, d).Where(g => g.Counts).ToArray()).ToArray();
        var rows = gaps.SelectMany(g => g.Take(Shown)).Select(g => (g.Mine, g.Theirs, g.Jaws)).Distinct()
            .Select(
                key => (
                    Key: key,
                    Metres: gaps.Select(at => at.Where(g => (g.Mine, g.Theirs, g.Jaws) == key).Select(g => (double?)g.Metres).FirstOrDefault()).ToArray()))
            .OrderBy(row => row.Metres.Min() ?? double.MaxValue).Take(2 * Shown).ToArray();
        if (rows.Length == 0)
        {
            return;
        }

        Plain.Line("");
        Plain.Line($"Gaps for a pick [{unit}], smallest first; at least {unit.Text(plan.GapMetres ?? 0)} is wanted:");
        Plain.Table(
            ["between", .. diameters.Select(d => $"at {unit.Short(d)}")],
            rows.Select(
                r => (
                    IReadOnlyList<string>)[Wording.Of(new GapReading(r.Key.Mine, r.Key.Theirs, r.Key.Jaws, 0), plan.Obstacles),
                    .. r.Metres.Select(m => m is { } metres ? unit.Short(metres) : "")]));
    }

    public static EnvelopesShape Of(Revision revision)
    {
        var envelopes = revision.Envelopes();
        return new(Of(envelopes.Pick, revision), Of(envelopes.Place, revision), Of(envelopes.Held, revision));
    }

    private static EnvelopeShape? Of(Envelope? envelope, Revision revision) =>
        envelope is null ? null : new(Of(envelope.Least, revision), Of(envelope.Greatest, revision), "m");

    private static EnvelopeEndShape Of(EnvelopeEnd end, Revision revision) =>
        new(end.DiameterMetres, Binding.Name(end.Constraint), Binding.Said(end, revision.Around.Obstacles, LengthUnit.Millimetre), end.Limit);

    private static void Print(string purpose, Envelope? envelope, Revision revision, LengthUnit unit)
    {
        if (envelope is null)
        {
            Plain.Line($"  No diameter is allowed for a {purpose}.");
            return;
        }

        Plain.Line(
            $"  Diameters for a {purpose}: {unit.Short(envelope.Least.DiameterMetres)} to {unit.Text(envelope.Greatest.DiameterMetres)}.");
        Reasons(envelope, revision, unit);
    }

    private static void Reasons(Envelope envelope, Revision revision, LengthUnit unit)
    {
        Plain.Line($"    Smaller stock is refused: {Binding.Said(envelope.Least, revision.Around.Obstacles, unit)}.");
        Plain.Line($"    Larger stock is refused: {Binding.Said(envelope.Greatest, revision.Around.Obstacles, unit)}.");
    }

    private static double[] Diameters(Revision revision, Envelope pick) =>
        [.. new[] { pick.Least.DiameterMetres, revision.TaughtDiameterMetres, pick.Greatest.DiameterMetres }.Distinct()];
}
