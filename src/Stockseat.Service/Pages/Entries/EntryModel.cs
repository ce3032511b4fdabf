using Stockseat.Audit.Explaining;
using Stockseat.Seating.Quantities;

namespace Stockseat.Service.Pages.Entries;

/// <summary>One entry.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Line">The entry in words.</param>
/// <param name="Hash">Its hash, in hexadecimal.</param>
/// <param name="Values">The values of its body.</param>
/// <param name="More">Whether it has more values than are shown.</param>
/// <param name="Fate">What came of it, each with its entry.</param>
/// <param name="Lacks">What did not come of it yet, in sentences.</param>
/// <param name="MayBeDone">Whether the client may say that it was carried out.</param>
/// <param name="Last">The last serial of the ledger.</param>
public sealed record EntryModel(
    PageFrame Frame, EntryLine Line, string Hash, IReadOnlyList<(string Name, string Text)> Values, bool More,
    IReadOnlyList<(string What, EntryLine Entry)> Fate, IReadOnlyList<string> Lacks, bool MayBeDone, long Last);

/// <summary>How an entry was computed.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Serial">The entry.</param>
/// <param name="Came">Whether it came out the same, in a sentence.</param>
/// <param name="Agrees">Whether it did.</param>
/// <param name="Differences">What came out differently.</param>
/// <param name="Sections">The steps.</param>
/// <param name="Unit">The unit of lengths.</param>
public sealed record WorkingModel(
    PageFrame Frame, long Serial, string Came, bool Agrees, IReadOnlyList<string> Differences, IReadOnlyList<WorkingSection> Sections, LengthUnit Unit);
