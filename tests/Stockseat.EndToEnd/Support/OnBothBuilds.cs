namespace Stockseat.EndToEnd.Support;

/// <summary>
/// Tests that run the program. Each class of them is abstract and has two classes inside, Ordinary and Native, that say on which of
/// the two it runs; so a failure names it.
/// </summary>
public abstract class OnBothBuilds(Build build)
{
    /// <summary>The program under test.</summary>
    private protected Built Program => Built.As(build);
}
