namespace Stockseat.Seating.Uncertainty;

/// <summary>What an uncertainty is made of, component by component, the largest first.</summary>
/// <param name="Lines">The components that are stated.</param>
/// <param name="Expanded">The expanded uncertainty of all components together: U, k = 2.</param>
public sealed record Budget(IReadOnlyList<BudgetLine> Lines, ExpandedUncertainty Expanded)
{
    /// <summary>The budget of a nest's position.</summary>
    public static Budget Of(SeatUncertainty uncertainty, NestOffset at)
    {
        var sums = new Sums();
        uncertainty.Walk(ref sums, at);
        var expanded = ExpandedUncertainty.Of(sums.Total);
        var (along, across) = (sums.Total.Along, sums.Total.Across);
        var lines = sums.Components.Select(p => Line(p.Key, p.Value.Input, p.Value.Sum, along, across))
            .OrderByDescending(l => Math.Max(l.ContributionAlongMetres, l.ContributionAcrossMetres)).ThenBy(l => l.Component);
        return new([.. lines], expanded);
    }

    private static BudgetLine Line(Component component, Input input, Propagation sum, double along, double across)
    {
        var (v, u) = (input.Standard * sum.Along, input.Standard * sum.Across);
        return new(component, input, sum.Along, sum.Across, v, u, Share(v, along), Share(u, across));
    }

    private static double Share(double part, double whole) => whole > 0 ? part * part / (whole * whole) : 0;

    private sealed class Sums : IComponentSink
    {
        public Propagation Total;

        public Dictionary<Component, (Input Input, Propagation Sum)> Components { get; } = [];

        public void Add(Component component, in Input input, double along, double across)
        {
            Total.Add(input.Standard, along, across);
            var sum = Components.TryGetValue(component, out var so) ? so.Sum : default;
            sum.Add(1, along, across);
            Components[component] = (input, sum);
        }
    }
}
