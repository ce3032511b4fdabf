namespace Stockseat.Service.Pages.Fixtures;

/// <summary>The form of an adoption.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Number">The revision.</param>
/// <param name="Digest">The digest of its file as it is shown.</param>
/// <param name="InForce">The revision in force; 0: none.</param>
/// <param name="Statement">What the revision means in base, in sentences.</param>
/// <param name="Nests">Where nests are: the nest, x y z in mm, x y z in inches.</param>
/// <param name="Changes">How it differs from the one in force; null: none is in force.</param>
/// <param name="Advice">What a day setter should know.</param>
/// <param name="Form">The form.</param>
public sealed record AdoptModel(
    PageFrame Frame, string Fixture, int Number, string Digest, int InForce, IReadOnlyList<string> Statement, IReadOnlyList<string[]> Nests,
    IReadOnlyList<string[]>? Changes, IReadOnlyList<string> Advice, PageForm Form);
