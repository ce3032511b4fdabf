using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Cli.Output;

/// <summary>Which diameters a revision allows and why, and the gaps: in millimetres for people, in metres for machines.</summary>
internal static class EnvelopeView
{
    /// <summary>How many of the smallest gaps are shown at each diameter.</summary>
    private const int Shown = 6;

    public static void Print(Revision revision)
    {
        var envelopes = revision.Envelopes();
        Print("pick", envelopes.Pick, revision);
        Print("place", envelopes.Place, revision);
        if (envelopes.Pick is not { } pick)
        {
            return;
        }

        if (revision.Limits.DiameterMetres is not null && envelopes.Held is { } held)
        {
            Plain.Line(
                $"  Without limits.diameter, a pick would allow {Wording.Millimetres(held.Least.DiameterMetres)} to "
                    + $"{Wording.Millimetres(held.Greatest.DiameterMetres)} mm.");
            Reasons(held, revision);
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
        Plain.Line($"Gaps for a pick [mm], smallest first; at least {Wording.Millimetres(plan.GapMetres ?? 0)} mm is wanted:");
        Plain.Table(
            ["between", .. diameters.Select(d => $"at {Wording.Millimetres(d)}")],
            rows.Select(
                r => (
                    IReadOnlyList<string>)[Wording.Of(new GapReading(r.Key.Mine, r.Key.Theirs, r.Key.Jaws, 0), plan.Obstacles),
                    .. r.Metres.Select(m => m is { } metres ? Wording.Millimetres(metres) : "")]));
    }

    public static EnvelopesShape Of(Revision revision)
    {
        var envelopes = revision.Envelopes();
        return new(Of(envelopes.Pick, revision), Of(envelopes.Place, revision), Of(envelopes.Held, revision));
    }

    private static EnvelopeShape? Of(Envelope? envelope, Revision revision) =>
        envelope is null ? null : new(Of(envelope.Least, revision), Of(envelope.Greatest, revision), "m");

    private static EnvelopeEndShape Of(EnvelopeEnd end, Revision revision) =>
        new(end.DiameterMetres, Binding.Name(end.Constraint), Binding.Said(end, revision.Around.Obstacles), end.Limit);

    private static void Print(string purpose, Envelope? envelope, Revision revision)
    {
        if (envelope is null)
        {
            Plain.Line($"  No diameter is allowed for a {purpose}.");
            return;
        }

        Plain.Line(
            $"  Diameters for a {purpose}: {Wording.Millimetres(envelope.Least.DiameterMetres)} to {Wording.Millimetres(envelope.Greatest.DiameterMetres)} "
                + $"mm.");
        Reasons(envelope, revision);
    }

    private static void Reasons(Envelope envelope, Revision revision)
    {
        Plain.Line($"    Smaller stock is refused: {Binding.Said(envelope.Least, revision.Around.Obstacles)}.");
        Plain.Line($"    Larger stock is refused: {Binding.Said(envelope.Greatest, revision.Around.Obstacles)}.");
    }

    private static double[] Diameters(Revision revision, Envelope pick) =>
        [.. new[] { pick.Least.DiameterMetres, revision.TaughtDiameterMetres, pick.Greatest.DiameterMetres }.Distinct()];
}
