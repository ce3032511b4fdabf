namespace Stockseat.Seating.Uncertainty;

/// <summary>One component of an uncertainty budget.</summary>
/// <param name="Component">What it is.</param>
/// <param name="Input">Its value and distribution, in metres or radians.</param>
/// <param name="SensitivityAlong">How far the position moves along the seat axis per unit of it; where it acts in several places, the root of the sum of
/// squares.</param>
/// <param name="SensitivityAcross">The same across.</param>
/// <param name="ContributionAlongMetres">Its standard uncertainty times that, in metres.</param>
/// <param name="ContributionAcrossMetres">The same across.</param>
/// <param name="ShareAlong">Its part of the variance along, 0 to 1.</param>
/// <param name="ShareAcross">Its part of the variance across, 0 to 1.</param>
public sealed record BudgetLine(
    Component Component, Input Input, double SensitivityAlong, double SensitivityAcross,
    double ContributionAlongMetres, double ContributionAcrossMetres, double ShareAlong, double ShareAcross);
