using System.CommandLine;
using System.Globalization;
using Stockseat.Audit.Replaying;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Ledger.Reading;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Computes entries again from their recorded inputs.</summary>
internal static class LedgerReplayCommand
{
    private static readonly Argument<long?> Serial = new("SERIAL")
    {
        Arity = ArgumentArity.ZeroOrOne,
        Description = "one entry, shown with every intermediate value; without it all entries", HelpName = "SERIAL", CustomParser = r =>
            Common.Whole(r, "serial", long.MaxValue),
    };

    private static readonly Option<long?> From = Option("--from", "only entries from this serial on");

    private static readonly Option<long?> Until = Option("--until", "only entries up to this serial");

    private static readonly Option<bool> Progress =
        new("--progress") { Description = "with --data: shows its progress on stderr even when stderr is not a terminal" };

    public static Command Make()
    {
        var (from, server, json) = (new LedgerFrom(), Common.Server(), new Option<bool>("--json")
        {
            Description = "output for programs: one JSON object",
        });
        var command = new ShownCommand(
            "replay", "computes entries again from their recorded inputs; exit code 0 all came out the same, 1 some did not, 2 could not be replayed",
            "ledger replay --data data", "ledger replay 1042")
        {
            Serial, From, Until, Progress, server, json,
        };
        from.AddTo(command);
        command.Validators.Add(r =>
        {
            if (r.GetResult(Serial) is { Tokens.Count: > 0 } && (r.GetResult(From) ?? r.GetResult(Until)) is not null)
            {
                r.AddError("--from and --until can't be used with one SERIAL; use either the range or the SERIAL");
            }

            if (r.Errors.Any() || r.GetResult(From) is null || r.GetResult(Until) is null)
            {
                return;
            }

            if (r.GetValue(From) > r.GetValue(Until))
            {
                r.AddError(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"--from is {r.GetValue(From)} and --until {r.GetValue(Until)}; --until has to be the same serial or a later one"));
            }
        });
        command.SetAction(async (parsed, token) =>
        {
            var (serial, asJson, unit) = (parsed.GetValue(Serial), parsed.GetValue(json), DisplayOptions.Of(parsed).Length);
            if (!from.IsService(parsed))
            {
                var options = new ReplayOptions { From = parsed.GetValue(From) ?? 1, Until = parsed.GetValue(Until) };
                return await from.Run(parsed, folder => Task.FromResult(LedgerFolder.Try(
                    () => serial is { } one ? One(folder, one, asJson, unit)
                        : ReplayView.Print(Run(folder, options, parsed.GetValue(Progress), token), asJson))), token);
            }

            var request = new ReplayRequest { From = parsed.GetValue(From) ?? 0, Until = parsed.GetValue(Until) ?? 0 };
            return await ServiceClient.Run(server.Of(parsed), client => Ask(client, request, serial, asJson, unit));
        });
        return command;
    }

    private static ReplayResult Run(string folder, ReplayOptions options, bool always, CancellationToken token)
    {
        using var progress = new ProgressLine(TimeProvider.System, always);
        return LedgerReplay.Run(folder, options with { Progress = progress.Tell }, token);
    }

    private static async Task<int> Ask(ServiceClient client, ReplayRequest request, long? serial, bool json, LengthUnit unit)
    {
        if (serial is { } one)
        {
            request.Serial = one;
        }

        var told = await ServiceClient.CallLong(t => client.Ledger.ReplayAsync(request, cancellationToken: t));
        var result = ReplayReading.Of(told);
        return serial is null ? ReplayView.Print(result, json) : WorkingView.Print(result, ReplayReading.Working(serial.Value, told), json, unit);
    }

    private static int One(string folder, long serial, bool json, LengthUnit unit)
    {
        if (LedgerReplay.One(folder, serial, unit) is var (result, working))
        {
            return WorkingView.Print(result, working, json, unit);
        }

        using var reader = LedgerReader.Open(folder);
        var there = reader.Piece(0, reader.Last, 1, null).Rows is [var first] ? $"this ledger has entries {first.Serial} to {reader.Last}" : "the ledger is "
            + "empty";
        Console.Error.WriteLine(Plain.Text(string.Create(CultureInfo.InvariantCulture, $"there is no entry {serial}; {there}")));
        return ExitCodes.Failed;
    }

    private static Option<long?> Option(string name, string what) =>
        new(name) { HelpName = "SERIAL", Description = what, CustomParser = r => Common.Whole(r, "serial", long.MaxValue) };
}
