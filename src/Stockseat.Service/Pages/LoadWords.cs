using Stockseat.Answers.State;
using Stockseat.Audit.Showing;

namespace Stockseat.Service.Pages;

/// <summary>What stands in the nests, in a sentence.</summary>
public static class LoadWords
{
    /// <summary>The load of a fixture, how far it has come, and what is asked about an unfinished move.</summary>
    public static string Of(FixtureState state) => state.Load is not { } load ? "Nobody has said what stands in the nests."
        : LoadText.Of(load) + (load.Open is null ? "." : ": was its move carried out?");
}
