using System.CommandLine;
using System.CommandLine.Parsing;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Reading;

namespace Stockseat.Cli.Commands;

/// <summary>The options that say which entries a command reads.</summary>
internal sealed class EntryRangeOptions
{
    private readonly Option<string?> _fixture = Text("--fixture", "FIXTURE", "only entries of this fixture");
    private readonly Option<string?> _kind = Text("--kind", "KIND", "only entries of this kind, for example answer");
    private readonly Option<string?> _client = Text("--client", "CLIENT", "only entries of this client");
    private readonly Option<string?> _cell = Text("--cell", "CELL", "only entries of clients of this cell");
    private readonly Option<string?> _lot = Text("--lot", "L", "only entries of this lot");
    private readonly Option<string?> _tag = Text("--tag", "T", "only entries with this tag");
    private readonly Option<DateTimeOffset?> _from = Instant(
        "--from", "only entries from this time on: 2026-11-25T08:00:00Z, 2026-11-25T09:00+01:00, or in local time 2026-11-25T09:00 or 2026-11-25");
    private readonly Option<DateTimeOffset?> _to = Instant("--to", "only entries before this time");
    private readonly Option<long> _after = Serial("--after", "only entries after this serial", least: 0);
    private readonly Option<long> _until = Serial("--until", "only entries up to this serial", least: 1);

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (var option in new Option[] { _from, _to, _fixture, _cell, _client, _kind, _lot, _tag, _after, _until })
        {
            command.Options.Add(option);
        }
    }

    public EntryRange Of(ParseResult parsed) => new(
        parsed.GetValue(_after),
        parsed.GetResult(_until) is null ? null : parsed.GetValue(_until),
        new(parsed.GetValue(_fixture), parsed.GetValue(_kind), parsed.GetValue(_client), parsed.GetValue(_tag))
        {
            Cell = parsed.GetValue(_cell),
            Lot = parsed.GetValue(_lot),
            From = parsed.GetValue(_from),
            To = parsed.GetValue(_to),
        });

    private static Option<string?> Text(string name, string help, string what) => new(name) { HelpName = help, Description = what };

    private static Option<long> Serial(string name, string what, long least) =>
        new(name) { HelpName = "SERIAL", Description = what, CustomParser = r => Common.Whole(r, "serial", long.MaxValue, least) };

    private static Option<DateTimeOffset?> Instant(string name, string what) =>
        new(name) { HelpName = "INSTANT", Description = what, CustomParser = r => Read(r, name) };

    private static DateTimeOffset? Read(ArgumentResult result, string name)
    {
        var text = result.Tokens[^1].Value;
        if (InstantText.Read(text, TimeZoneInfo.Local, out var at) is not { } fault)
        {
            return at;
        }

        result.AddError($"{name} '{Plain.Text(text)}' {fault}");
        return null;
    }
}
