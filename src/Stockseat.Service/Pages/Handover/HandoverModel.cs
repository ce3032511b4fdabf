using Stockseat.Service.Pages.Board;

namespace Stockseat.Service.Pages.Handover;

/// <summary>What whoever comes next has to know.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="At">The instant, as people are shown it.</param>
/// <param name="Hours">How many hours it covers.</param>
/// <param name="Choices">The hours that can be chosen.</param>
/// <param name="Open">What somebody has to look at.</param>
/// <param name="Fixtures">The fixtures.</param>
/// <param name="Day">What the last hours add up to; null: it can't be told.</param>
/// <param name="NoDay">Why it can't be told; null: it can.</param>
public sealed record HandoverModel(
    PageFrame Frame, string At, int Hours, IReadOnlyList<int> Choices, IReadOnlyList<OpenPoint> Open, IReadOnlyList<HandedFixture> Fixtures,
    DayModel? Day, string? NoDay);

/// <summary>Something that somebody has to look at.</summary>
/// <param name="Fixture">The fixture.</param>
/// <param name="What">What it is, in a word or two.</param>
/// <param name="Text">What is so.</param>
public sealed record OpenPoint(string Fixture, string What, string Text);

/// <summary>A fixture.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Answer">Whether it answers.</param>
/// <param name="Lines">What is known of it and needs nobody.</param>
public sealed record HandedFixture(string Name, AnswerState Answer, IReadOnlyList<BoardLine> Lines);

/// <summary>What the last hours add up to.</summary>
/// <param name="Lots">The lots, each with its cells.</param>
/// <param name="MoreLots">How many lots are left out.</param>
/// <param name="Refused">What was refused, each with its cells and the text of the last one.</param>
/// <param name="MoreRefused">How many are left out.</param>
/// <param name="Notes">The notes.</param>
/// <param name="Cut">What is left out because there were too many entries; null: nothing.</param>
/// <param name="Unit">The unit of the diameters.</param>
public sealed record DayModel(
    IReadOnlyList<LotRow> Lots, int MoreLots, IReadOnlyList<RefusedRow> Refused, int MoreRefused, IReadOnlyList<string> Notes, string? Cut, string Unit);

/// <summary>A lot of the day.</summary>
public sealed record LotRow(string Lot, string Fixture, string Measured, string Diameters, string Answered, string Done);

/// <summary>What was refused.</summary>
public sealed record RefusedRow(string Count, string Fixture, string Asked, string Reason, string Last, string Text);
