namespace Stockseat.Service.Pages.Reviews;

/// <summary>The form of a note.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Form">The form.</param>
/// <param name="Zone">The zone of instants.</param>
public sealed record NoteModel(PageFrame Frame, PageForm Form, string Zone);
