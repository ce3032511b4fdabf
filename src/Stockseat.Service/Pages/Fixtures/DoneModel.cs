namespace Stockseat.Service.Pages.Fixtures;

/// <summary>The form that says that an answer was carried out.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Said">The answer in words.</param>
/// <param name="Answer">Its serial.</param>
/// <param name="Fixture">Its fixture.</param>
/// <param name="Nest">Its nest, when this settles the unfinished move of a load whose numbers were never read back; null otherwise.</param>
/// <param name="Form">The form.</param>
public sealed record DoneModel(PageFrame Frame, string Said, long Answer, string Fixture, string? Nest, PageForm Form);
