namespace Stockseat.Service.Pages.Measure;

/// <summary>The fixtures of which one is to be measured.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixtures">Their names, each with what is measured now.</param>
public sealed record ChooseModel(PageFrame Frame, IReadOnlyList<(string Fixture, string Measured)> Fixtures);

/// <summary>The form in which readings are typed.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Measured">What is measured now.</param>
/// <param name="Input">What was typed before.</param>
/// <param name="Faults">What was wrong with that.</param>
/// <param name="Gauges">The gauges of the configuration.</param>
/// <param name="Lots">The lots that are known.</param>
/// <param name="NeedsGauge">Whether a gauge has to be chosen.</param>
/// <param name="NeedsLot">Whether a lot has to be stated.</param>
/// <param name="TaughtLength">The taught length, in words, when the length of the stock counts; null: it does not.</param>
/// <param name="HasLoad">Whether somebody said what stands in the nests, so that one nest can be measured by itself.</param>
public sealed record TypeModel(
    PageFrame Frame, string Fixture, string Measured, MeasureInput Input, IReadOnlyList<string> Faults, IReadOnlyList<string> Gauges,
    IReadOnlyList<string> Lots, bool NeedsGauge, bool NeedsLot, string? TaughtLength, bool HasLoad);

/// <summary>What was understood and what it means; or, when it was sent, what came of it.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Form">The form that sends it; null: it was sent.</param>
/// <param name="Input">What was typed.</param>
/// <param name="Verdict">Whether it is taken, and why not.</param>
/// <param name="Stock">What was measured.</param>
/// <param name="Before">What is measured now, before it is sent; or whether it still counts, after.</param>
/// <param name="Next">What the next ask gets.</param>
/// <param name="Drawing">The nest at that diameter, as SVG; null: it is not drawn.</param>
/// <param name="Side">The stock from the side, as SVG; null: its length does not count.</param>
public sealed record CheckModel(
    PageFrame Frame, string Fixture, PageForm? Form, MeasureInput Input, Verdict Verdict, MeasuredStock Stock, string Before, NextModel? Next,
    string? Drawing, string? Side = null);

/// <summary>Whether a measurement is taken.</summary>
/// <param name="IsTaken">Whether it is.</param>
/// <param name="Heading">So in a few words.</param>
/// <param name="Text">Why not, and what to do; or what was recorded; null: there is nothing to add.</param>
/// <param name="Voids">Whether sending it would leave the fixture without a measurement.</param>
public sealed record Verdict(bool IsTaken, string Heading, string? Text, bool Voids);

/// <summary>What was measured.</summary>
/// <param name="Readings">The readings.</param>
/// <param name="DiameterMetres">Their mean, in metres.</param>
/// <param name="Diameter">The same in both units.</param>
/// <param name="Spread">How far they are apart; null: there is one reading.</param>
/// <param name="Gauge">The gauge; null: none was named.</param>
/// <param name="Lot">The lot; null: none was named.</param>
/// <param name="LengthMetres">The length, in metres; null: it was not measured.</param>
/// <param name="Nest">The nest that was measured by itself; null: the stock of the whole fixture.</param>
public sealed record MeasuredStock(
    IReadOnlyList<ReadingRow> Readings, double DiameterMetres, BothUnits Diameter, BothUnits? Spread, string? Gauge, string? Lot, double? LengthMetres,
    string? Nest)
{
    /// <summary>The length in both units; null: it was not measured.</summary>
    public BothUnits? Length => LengthMetres is { } metres ? MeasureMeaning.Both(metres) : null;
}

/// <summary>One reading.</summary>
/// <param name="Typed">As it was typed, with the unit that was chosen; null: that is not known any more.</param>
/// <param name="Length">How it was understood.</param>
/// <param name="FromMean">How far it is from the mean, with its sign.</param>
public sealed record ReadingRow(string? Typed, BothUnits Length, BothUnits FromMean);

/// <summary>A length in both units, without their names.</summary>
/// <param name="Millimetres">In mm.</param>
/// <param name="Inches">In inches.</param>
public readonly record struct BothUnits(string Millimetres, string Inches);

/// <summary>What the next ask for a pick at a nest gets.</summary>
/// <param name="Nest">The nest.</param>
/// <param name="Refused">Why it is refused; null: it is answered.</param>
/// <param name="Shift">The shift along each axis of base, by the names that lines use.</param>
/// <param name="IsFirst">Whether it has to be run at reduced speed.</param>
/// <param name="Uncertainty">How sure it is, in words; null: that is not known.</param>
public sealed record NextModel(
    string Nest, string? Refused, IReadOnlyList<(string Name, BothUnits Length)> Shift, bool IsFirst, string? Uncertainty);
