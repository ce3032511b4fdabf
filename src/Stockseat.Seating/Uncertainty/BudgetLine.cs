namespace Stockseat.Seating.Uncertainty;

/// <summary>One component of an uncertainty budget.</summary>
/// <param name="Component">What it is.</param>
/// <param name="Input">Its value and distribution, in metres or radians.</param>
/// <param name="SensitivityAlong">How far the position moves along the seat axis per unit of the input; where the input acts in several places, the root of the
/// sum of squares.</param>
/// <param name="SensitivityAcross">The same across the seat axis.</param>
/// <param name="ContributionAlongMetres">Its standard uncertainty times the sensitivity along, in metres.</param>
/// <param name="ContributionAcrossMetres">Its standard uncertainty times the sensitivity across, in metres.</param>
/// <param name="ShareAlong">Its part of the variance along, 0 to 1.</param>
/// <param name="ShareAcross">Its part of the variance across, 0 to 1.</param>
public sealed record BudgetLine(
    Component Component, Input Input, double SensitivityAlong, double SensitivityAcross,
    double ContributionAlongMetres, double ContributionAcrossMetres, double ShareAlong, double ShareAcross);
