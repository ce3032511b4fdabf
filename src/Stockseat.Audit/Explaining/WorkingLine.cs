namespace Stockseat.Audit.Explaining;

/// <summary>One step of a working: its meaning, its formula, its result.</summary>
/// <param name="Symbol">Its symbol, such as "C(R + g)"; empty for a sentence.</param>
/// <param name="Text">What it is, in words.</param>
/// <param name="Formula">How it is computed from the symbols before it; empty when it is an input.</param>
/// <param name="Values">The result: a number, or the components of a vector; none for a sentence.</param>
/// <param name="Unit">Their unit: m, deg, s, kg or 1; empty without values.</param>
public sealed record WorkingLine(string Symbol, string Text, string Formula, IReadOnlyList<double> Values, string Unit);
