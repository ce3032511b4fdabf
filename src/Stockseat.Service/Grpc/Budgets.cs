using Stockseat.Answers.Deciding;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Service.Grpc;

/// <summary>Uncertainty budgets as messages.</summary>
public static class Budgets
{
    /// <summary>One nest's.</summary>
    public static V1.Budget Of(NestBudget nest)
    {
        var message = new V1.Budget
        {
            Column = nest.Column,
            Row = nest.Row,
            Expanded = new() { AlongMetres = nest.Budget.Expanded.Along, AcrossMetres = nest.Budget.Expanded.Across },
        };
        message.Lines.AddRange(nest.Budget.Lines.Select(Of));
        message.NotStated.AddRange(nest.NotStated);
        return message;
    }

    private static V1.BudgetLine Of(BudgetLine line) => new()
    {
        Component = line.Component.Name(),
        Value = line.Input.Value,
        IsAngle = line.Component.IsAngle(),
        Distribution = line.Input.Distribution.Name(),
        Standard = line.Input.Standard,
        SensitivityAlong = line.SensitivityAlong,
        SensitivityAcross = line.SensitivityAcross,
        ContributionAlongMetres = line.ContributionAlongMetres,
        ContributionAcrossMetres = line.ContributionAcrossMetres,
        ShareAlong = line.ShareAlong,
        ShareAcross = line.ShareAcross,
    };
}
