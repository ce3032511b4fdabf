namespace Stockseat.Seating.Fitting;

/// <summary>A point that the other points contradict: leaving it out lowers the residuals by more than chance explains.</summary>
/// <param name="Index">Which of the points.</param>
/// <param name="Ratio">F of the test: the part of the sum of squares that goes with the point, over the part that is left, each per degree of freedom.</param>
/// <param name="Probability">How often pure chance would make any of the points stand out that far: the tail of F times the number of points, at most
/// 1.</param>
public readonly record struct Outlier(int Index, double Ratio, double Probability);
