using Stockseat.Service.Pages.Measure;

namespace Stockseat.Service.Pages.Lots;

/// <summary>The lots that are known, and the form that describes one.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Done">What the client has just done; null: nothing.</param>
/// <param name="Lots">The lots.</param>
/// <param name="MayDescribe">Whether the client may describe one.</param>
/// <param name="Input">What was typed before.</param>
/// <param name="Faults">What was wrong with that.</param>
/// <param name="Tolerances">The tolerances that have a name, in words.</param>
public sealed record LotsModel(
    PageFrame Frame, string? Done, IReadOnlyList<ShownLot> Lots, bool MayDescribe, LotInput Input, IReadOnlyList<string> Faults, string Tolerances);

/// <summary>A lot.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Nominal">Its nominal diameter; null: not stated.</param>
/// <param name="Least">Its least diameter; null: not known.</param>
/// <param name="Greatest">Its greatest diameter; null: not known.</param>
/// <param name="OutOfRound">How much the diameters of one cross-section may differ; null: not stated.</param>
/// <param name="Length">Its lengths, from the least to the greatest; null: not stated.</param>
/// <param name="Tolerance">Its tolerance by name; "" when there is none.</param>
/// <param name="From">Where that comes from.</param>
public sealed record ShownLot(
    string Name, BothUnits? Nominal, BothUnits? Least, BothUnits? Greatest, BothUnits? OutOfRound,
    (BothUnits Least, BothUnits Greatest)? Length, string Tolerance, string From);

/// <summary>What was understood of a lot, before it is sent.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Lot">The lot.</param>
/// <param name="Before">What is said of it until now; null: nothing.</param>
/// <param name="Refused">Why it would be refused; null: it would be taken.</param>
/// <param name="Form">The form that sends it.</param>
/// <param name="Input">What was typed.</param>
public sealed record LotCheckModel(PageFrame Frame, ShownLot Lot, ShownLot? Before, string? Refused, PageForm Form, LotInput Input);
