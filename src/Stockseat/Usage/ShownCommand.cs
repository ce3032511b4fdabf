using System.CommandLine;

namespace Stockseat.Cli.Usage;

/// <summary>A command that states how it is typed: its help shows the examples, and a test parses each of them.</summary>
/// <param name="name">The command's name.</param>
/// <param name="description">What it does, as a sentence without its full stop.</param>
/// <param name="examples">What to type after "stockseat ", at least one.</param>
internal sealed class ShownCommand(string name, string description, params string[] examples) : Command(name, description)
{
    /// <summary>What to type after "stockseat ".</summary>
    public IReadOnlyList<string> Examples => examples;
}
