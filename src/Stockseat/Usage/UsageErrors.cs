using System.CommandLine;
using System.CommandLine.Parsing;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Usage;

/// <summary>What is wrong with a command line, in words that name the nearest right word.</summary>
internal static class UsageErrors
{
    /// <summary>One message for each mistake; none when there is no mistake.</summary>
    public static IReadOnlyList<string> Of(ParseResult parsed)
    {
        var (command, path) = (parsed.CommandResult.Command, Path(parsed.CommandResult));
        var unknown = parsed.UnmatchedTokens;
        var named = unknown.Count > 0 && IsGroup(command) && !IsOption(unknown[0])
            ? [NotACommand(parsed, command, path, unknown[0])] // and what follows it belongs to a command that nobody knows
            : unknown.Where((word, i) => IsOption(word) || i == 0 || !IsOption(unknown[i - 1])) // the value of an unknown option is no mistake of its own
                .Select(word => NotKnown(parsed.CommandResult, path, word));
        return [.. named, .. parsed.Errors.Where(e => !IsUnknown(e, unknown)).Select(e => Said(e, parsed.CommandResult, unknown.Count > 0)).OfType<string>()];
    }

    /// <summary>The command with all before it, as it is typed.</summary>
    public static string Path(CommandResult result)
    {
        var names = FromHere(result).Select(r => r.Command is RootCommand ? "stockseat" : r.Command.Name);
        return string.Join(' ', names.Reverse());
    }

    /// <summary>An option that takes one of a few words; another one is named with the nearest.</summary>
    public static Option<string> Choice(Option<string> option, params string[] words)
    {
        option.HelpName = string.Join('|', words);
        option.CompletionSources.Add(words);
        option.Validators.Add(result =>
        {
            if (result.Tokens is [.., { Value: var word }] && !words.Contains(word, StringComparer.Ordinal))
            {
                result.AddError($"{option.Name} is '{word}'; {string.Join(" or ", words)} was expected{NearestWord.Hint(word, words)}");
            }
        });
        return option;
    }

    /// <summary>An error of the library in our words; null when another message says it already.</summary>
    private static string? Said(ParseError error, CommandResult at, bool hasUnknown)
    {
        switch (error.SymbolResult)
        {
            case CommandResult when IsGroup(at.Command):
                return hasUnknown ? null : $"a command is missing after '{Path(at)}'; name one of {Names(at.Command)}";
            case ArgumentResult { Tokens.Count: 0, Parent: CommandResult, Argument: var missing } when IsMissing(error):
                return $"{missing.Name} is missing after '{Path(at)}': {missing.Description}";
            case ArgumentResult { Tokens.Count: 0, Parent: OptionResult { Option: var option } } when IsMissing(error):
                return NeedsValue(option);
            case OptionResult { Tokens.Count: 0, Option: var option } when IsMissing(error):
                return NeedsValue(option);
        }

        return Required(at, error) is { } required
            ? $"{required.Name}{(required.HelpName is { } value ? $" {value}" : "")} is missing: {required.Description}"
            : OneLine(error.Message);
    }

    private static bool IsMissing(ParseError error) => error.Message.Contains(" missing ", StringComparison.Ordinal);

    private static string NeedsValue(Option option) => $"{option.Name} has no value; {option.HelpName ?? "one"} was expected: {option.Description}";

    private static bool IsGroup(Command command) => command.Subcommands.Count > 0;

    private static bool IsOption(string word) => word.StartsWith('-');

    private static string NotACommand(ParseResult parsed, Command command, string path, string word)
    {
        var here = command.Subcommands.Select(c => c.Name).ToArray();
        if (NearestWord.Hint(word, here) is { Length: > 0 } hint)
        {
            return $"'{word}' is not a command of {path}{hint}";
        }

        var elsewhere = parsed.RootCommandResult.Command.Subcommands.SelectMany(c => c.Subcommands.Select(s => (Group: c.Name, s.Name)))
            .Where(c => c.Name == word).Select(c => $"'stockseat {c.Group} {c.Name}'").ToArray();
        return $"'{word}' is not a command of {path}; "
            + $"{(elsewhere.Length > 0 ? $"did you mean {string.Join(" or ", elsewhere)}?" : $"name one of {Names(command)}")}";
    }

    private static string NotKnown(CommandResult result, string path, string word)
    {
        if (!IsOption(word))
        {
            return $"'{word}' is one word too many for '{path}'; a text with spaces needs quotation marks around it";
        }

        var options = FromHere(result).SelectMany(r => r.Command.Options.Where(o => !o.Hidden && (o.Recursive || r == result)).Select(o => o.Name));
        return $"'{word}' is not an option of '{path}'{NearestWord.Hint(word, options)}";
    }

    /// <summary>A command, then the one that it belongs to, and so on.</summary>
    private static IEnumerable<CommandResult> FromHere(CommandResult result)
    {
        for (SymbolResult? at = result; at is CommandResult command; at = at.Parent)
        {
            yield return command;
        }
    }

    /// <summary>The option that an error says is missing.</summary>
    private static Option? Required(CommandResult result, ParseError error) =>
        error.SymbolResult is OptionResult or CommandResult && error.Message.EndsWith(" is required.", StringComparison.Ordinal)
            ? result.Command.Options.FirstOrDefault(o => o.Required && error.Message.Contains($"'{o.Name}'", StringComparison.Ordinal)) : null;

    /// <summary>Whether it is the library's own message on a word that it could not place.</summary>
    private static bool IsUnknown(ParseError error, IReadOnlyList<string> unknown) =>
        error.SymbolResult is CommandResult && unknown.Any(u => error.Message.EndsWith($"'{u}'.", StringComparison.Ordinal));

    private static string Names(Command command) => string.Join(", ", command.Subcommands.Select(c => c.Name));

    private static string OneLine(string message) =>
        string.Join(' ', message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
