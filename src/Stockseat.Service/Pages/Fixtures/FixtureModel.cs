using Stockseat.Service.Pages.Board;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>A fixture.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">Its name.</param>
/// <param name="Answer">Whether it answers.</param>
/// <param name="Why">Why not; null: it answers.</param>
/// <param name="Holds">Who holds it.</param>
/// <param name="MayCalibrate">Whether the client may hold, release and adopt.</param>
/// <param name="Seat">What its revision in force means; null: none is in force.</param>
/// <param name="Revisions">Its revisions, the newest first.</param>
/// <param name="Lacks">What lacks until the revision in force is proven.</param>
/// <param name="Rechecks">Its newest rechecks; null: the client may not read them.</param>
public sealed record FixtureModel(
    PageFrame Frame, string Fixture, AnswerState Answer, string? Why, IReadOnlyList<BoardHold> Holds, bool MayCalibrate, ShownSeat? Seat,
    IReadOnlyList<ShownRevision> Revisions, IReadOnlyList<string> Lacks, ShownRechecks? Rechecks);

/// <summary>What a revision means.</summary>
/// <param name="Revision">Its number.</param>
/// <param name="Typed">The diameter that was typed; "" when none was.</param>
/// <param name="Fault">What is wrong with that; null: nothing.</param>
/// <param name="IsPlace">Whether it is shown for a place; else for a pick.</param>
/// <param name="Drawing">Its nest, drawn to scale.</param>
/// <param name="Side">The stock from the side at the limits of its length; null: the length does not count.</param>
/// <param name="Said">What holds at the diameter that was typed, in sentences.</param>
/// <param name="Statement">What the revision means in base, in sentences.</param>
/// <param name="Nests">Where nests are: the nest, x y z in mm, x y z in inches.</param>
/// <param name="Unit">The unit of the rows.</param>
/// <param name="Rows">Shifts by diameter: diameter, bx, by, bz, and what is special.</param>
public sealed record ShownSeat(
    int Revision, string Typed, string? Fault, bool IsPlace, string Drawing, string? Side, IReadOnlyList<string> Said,
    IReadOnlyList<string> Statement, IReadOnlyList<string[]> Nests, string Unit, IReadOnlyList<string[]> Rows);

/// <summary>A revision in the list.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Standing">Its standing, in words.</param>
/// <param name="Changes">How it differs from the one in force: key, there, here; null: it can't be compared.</param>
/// <param name="Faults">The faults of its file.</param>
/// <param name="MayAdopt">Whether it can be adopted.</param>
public sealed record ShownRevision(int Number, string Standing, IReadOnlyList<string[]>? Changes, IReadOnlyList<string> Faults, bool MayAdopt);

/// <summary>How a revision differs from the one in force.</summary>
/// <param name="All">Each difference: key, there, here.</param>
/// <param name="IsOpen">Whether they are shown at once; else only how many there are.</param>
public sealed record ShownChanges(IReadOnlyList<string[]> All, bool IsOpen);
