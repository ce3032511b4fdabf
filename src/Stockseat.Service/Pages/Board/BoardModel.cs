namespace Stockseat.Service.Pages.Board;

/// <summary>What the board shows.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Sum">How many fixtures answer, in a few words.</param>
/// <param name="Silent">The fixtures that do not answer or have to be measured first.</param>
/// <param name="At">The instant, as people are shown it.</param>
/// <param name="Refresh">Whether it refreshes, and how.</param>
/// <param name="Done">What the client has just done; null: nothing.</param>
/// <param name="Fixtures">The fixtures.</param>
/// <param name="Lone">Gauge ports of fixtures that are not known.</param>
/// <param name="Service">The state of the ledger, of the certificate and of the doors.</param>
public sealed record BoardModel(
    PageFrame Frame, string Sum, IReadOnlyList<BoardFixture> Silent, string At, BoardRefresh Refresh, string? Done,
    IReadOnlyList<BoardFixture> Fixtures, IReadOnlyList<BoardLine> Lone, IReadOnlyList<BoardLine> Service);

/// <summary>Whether the board refreshes.</summary>
public enum BoardRefresh
{
    /// <summary>By our script, where scripts run.</summary>
    Script,

    /// <summary>The browser loads it again.</summary>
    Reload,

    /// <summary>Not at all.</summary>
    Off,
}

/// <summary>A fixture on the board.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Answer">Whether it answers.</param>
/// <param name="Why">Why not, in a few words and in a sentence; "" when it answers.</param>
/// <param name="Lines">What is known of it.</param>
/// <param name="Holds">Who holds it.</param>
/// <param name="MayMeasure">Whether the client may send measurements.</param>
/// <param name="MayLoad">Whether the client may say what stands in the nests.</param>
/// <param name="MayHold">Whether the client may hold and release it.</param>
public sealed record BoardFixture(
    string Name, AnswerState Answer, (string Short, string Text) Why, IReadOnlyList<BoardLine> Lines, IReadOnlyList<BoardHold> Holds, bool MayMeasure,
    bool MayLoad, bool MayHold);

/// <summary>A line of the board.</summary>
/// <param name="Term">What it is about.</param>
/// <param name="Text">What is so.</param>
/// <param name="Matters">Whether somebody should do something about it.</param>
public sealed record BoardLine(string Term, string Text, bool Matters = false);

/// <summary>A hold on the board.</summary>
/// <param name="By">Who holds.</param>
/// <param name="Why">Why.</param>
/// <param name="Since">Since when, as people are shown it.</param>
/// <param name="Serial">Its entry.</param>
public sealed record BoardHold(string By, string Why, string Since, long Serial);
