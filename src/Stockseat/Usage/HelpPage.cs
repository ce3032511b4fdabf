using System.CommandLine;
using System.CommandLine.Invocation;
using Stockseat.Answers.Cautions;

namespace Stockseat.Cli.Usage;

/// <summary>The help of a command: as the library prints it, then the examples. The root has a page of its own, with the commands in groups.</summary>
/// <param name="usual">Prints the library's help.</param>
/// <param name="groups">The root's commands, in groups with a title each.</param>
internal sealed class HelpPage(SynchronousCommandLineAction usual, IReadOnlyList<(string Title, Command[] Commands)> groups) : SynchronousCommandLineAction
{
    public const string Job = "Stockseat tells a robot where the pick grid's origin is for stock of the diameter that was measured.";

    private const string Examples = "Examples:";

    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        var text = parseResult.InvocationConfiguration.Output;
        var command = parseResult.CommandResult.Command;
        if (command is RootCommand)
        {
            Root(text);
            return 0;
        }

        usual.Invoke(parseResult);
        if (command is ShownCommand shown)
        {
            text.WriteLine(Examples);
            foreach (var example in shown.Examples)
            {
                text.WriteLine($"  stockseat {example}");
            }

            text.WriteLine();
        }

        return 0;
    }

    private void Root(TextWriter text)
    {
        text.WriteLine(Job);
        text.WriteLine();
        text.WriteLine($"Caution: {Caution.Short("Stockseat")}");
        text.WriteLine();
        text.WriteLine("Usage:");
        text.WriteLine("  stockseat COMMAND [options]");
        var width = groups.SelectMany(g => g.Commands).Max(c => c.Name.Length) + 2;
        foreach (var (title, commands) in groups)
        {
            text.WriteLine();
            text.WriteLine($"{title}:");
            foreach (var command in commands)
            {
                text.WriteLine($"  {command.Name.PadRight(width)}{command.Description}");
            }
        }

        text.WriteLine();
        text.WriteLine(Examples);
        text.WriteLine("  stockseat tour");
        text.WriteLine("  stockseat serve --config config/stockseat.json");
        text.WriteLine("  stockseat locate pinbed-1 --diameter 92.40mm");
        text.WriteLine();
        text.WriteLine("COMMAND --help explains a command and its options, and shows examples. --version prints the version.");
        text.WriteLine("Exit codes: 0 done; 1 refused, not intact, or a recheck that missed; 2 could not be done or checked; 64 wrong usage or configuration.");
    }
}
