namespace Stockseat.EndToEnd.Support;

/// <summary>
/// Tests that run the program. Each such class is abstract and has two classes inside, Ordinary and Native, that state which
/// build they run; so the name of a failure shows it.
/// </summary>
public abstract class OnBothBuilds(Build build)
{
    /// <summary>The program under test.</summary>
    private protected Built Program => Built.As(build);
}
