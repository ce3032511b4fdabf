using Stockseat.Service.Pages.Board;

namespace Stockseat.Service.Pages.Holds;

/// <summary>The form of a hold or of its release.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Form">The form.</param>
/// <param name="Of">The hold that is released; null: one begins.</param>
/// <param name="Others">Other holds of the fixture.</param>
public sealed record HoldModel(PageFrame Frame, string Fixture, PageForm Form, BoardHold? Of, IReadOnlyList<BoardHold> Others);
