using System.CommandLine;
using System.Globalization;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Replaying;

namespace Stockseat.Cli.Commands;

/// <summary>Computes entries again from what is recorded of their inputs.</summary>
internal static class LedgerReplayCommand
{
    private static readonly Argument<long?> Serial = new("SERIAL")
    {
        Arity = ArgumentArity.ZeroOrOne, Description = "one entry, with every intermediate value", HelpName = "SERIAL", CustomParser = r => Common.Whole(r, "serial", long.MaxValue),
    };

    private static readonly Option<long?> From = Option("--from", "only entries from this serial on");

    private static readonly Option<long?> Until = Option("--until", "only entries up to this serial");

    private static readonly Option<bool> Progress = new("--progress") { Description = "tells on stderr how far it is, also where that is no terminal" };

    public static Command Make()
    {
        var (data, json) = (Common.Data("the data folder to read where it lies, running or stopped"), Common.Json());
        var command = new Command("replay", "decides all again from what is recorded: 0 it comes out the same, 1 it does not, 2 could not be replayed")
        {
            Serial, From, Until, data, Progress, json,
        };
        command.Validators.Add(r =>
        {
            if (r.GetResult(data) is null)
            {
                r.AddError("--data is needed: name the data folder to replay where it lies, running or stopped");
            }

            if (r.GetResult(Serial) is { Tokens.Count: > 0 } && (r.GetResult(From) ?? r.GetResult(Until)) is not null)
            {
                r.AddError("--from and --until do not go with one SERIAL; name one or the other");
            }

            if (r.Errors.Any() || r.GetResult(From) is null || r.GetResult(Until) is null)
            {
                return;
            }

            if (r.GetValue(From) > r.GetValue(Until))
            {
                r.AddError(string.Create(CultureInfo.InvariantCulture, $"--from is {r.GetValue(From)} and --until {r.GetValue(Until)}; a range from a serial up to the same or a later one was expected"));
            }
        });
        command.SetAction((parsed, token) => Task.FromResult(LedgerFolder.Try(() => parsed.GetValue(Serial) is { } serial
            ? One(parsed.GetValue(data)!, serial, parsed.GetValue(json))
            : ReplayView.Print(
                Run(parsed.GetValue(data)!, new() { From = parsed.GetValue(From) ?? 1, Until = parsed.GetValue(Until) }, parsed.GetValue(Progress), token), parsed.GetValue(json)))));
        return command;
    }

    private static ReplayResult Run(string folder, ReplayOptions options, bool always, CancellationToken token)
    {
        using var progress = new ProgressLine(TimeProvider.System, always);
        return LedgerReplay.Run(folder, options with { Progress = progress.Tell }, token);
    }

    private static int One(string folder, long serial, bool json)
    {
        if (LedgerReplay.One(folder, serial) is var (result, working))
        {
            return WorkingView.Print(result, working, json);
        }

        using var reader = LedgerReader.Open(folder);
        var there = reader.Piece(0, reader.Last, 1, null).Rows is [var first] ? $"there are {first.Serial} to {reader.Last}" : "the ledger is empty";
        Console.Error.WriteLine(Plain.Text(string.Create(CultureInfo.InvariantCulture, $"there is no entry {serial}; {there}")));
        return ExitCodes.Failed;
    }

    private static Option<long?> Option(string name, string what) =>
        new(name) { HelpName = "SERIAL", Description = what, CustomParser = r => Common.Whole(r, "serial", long.MaxValue) };
}
