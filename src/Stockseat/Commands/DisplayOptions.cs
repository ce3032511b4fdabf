using System.Collections;
using System.CommandLine;
using Stockseat.Audit.Showing;
using Stockseat.Service.Showing;

namespace Stockseat.Cli.Commands;

/// <summary>How a command shows lengths, times and pages to people: options of the root, so that every command has them.</summary>
internal static class DisplayOptions
{
    private static readonly Option<string?> Unit = new("--unit")
    {
        HelpName = "mm|in", Recursive = true,
        Description = "the unit of lengths in what people read, instead of the configuration's; mm unless either states it",
    };

    private static readonly Option<string?> Zone = new("--zone")
    {
        HelpName = "ZONE", Recursive = true,
        Description = "the time zone of times in what people read, instead of the configuration's: local, UTC or a name such as America/Chicago; local unless "
            + "either states it",
    };

    private static readonly Option<string?> Paper = new("--paper")
    {
        HelpName = "A4|Letter", Recursive = true,
        Description = "the paper size of pages and drawings, instead of the configuration's; A4 unless either states it",
    };

    public static void AddTo(Command root)
    {
        foreach (var option in (Option[])[Unit, Zone, Paper])
        {
            root.Options.Add(option);
        }
    }

    /// <summary>What the command line says.</summary>
    public static DisplayOverrides Stated(ParseResult parsed) => new(parsed.GetValue(Unit), parsed.GetValue(Zone), parsed.GetValue(Paper));

    /// <summary>What a command without a configuration file goes by.</summary>
    public static Display Of(ParseResult parsed) => Of(parsed, out _);

    /// <summary>The same with what is wrong; the program has looked at that before it runs a command.</summary>
    public static Display Of(ParseResult parsed, out IReadOnlyList<string> faults) => DisplayReader.Read(Stated(parsed), Environment(), out faults);

    /// <summary>The environment's variables.</summary>
    public static Dictionary<string, string> Environment() =>
        System.Environment.GetEnvironmentVariables().Cast<DictionaryEntry>().ToDictionary(e => (string)e.Key, e => (string?)e.Value ?? "");
}
