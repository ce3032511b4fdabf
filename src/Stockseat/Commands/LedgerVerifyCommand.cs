using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Cli.Commands;

/// <summary>Verifies a ledger in its folder, or asks the service to do it.</summary>
internal static class LedgerVerifyCommand
{
    private static readonly Option<bool> Progress =
        new("--progress") { Description = "with --data: shows its progress on stderr even when stderr is not a terminal" };

    public static Command Make()
    {
        var demands = new VerifyDemands.Options();
        var (from, server, json) = (new LedgerFrom(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "verify", "checks the whole chain of hashes and the seals; exit code 0 intact, 1 not intact, 2 could not be checked",
            "ledger verify --data data", "ledger verify --data data --against anchor.txt --require-seal");
        demands.AddTo(command);
        foreach (var option in new Option[] { Progress, server, json })
        {
            command.Options.Add(option);
        }

        from.AddTo(command);
        command.SetAction(async (parsed, token) =>
        {
            if (await demands.Read(parsed, token) is not { } wanted)
            {
                return ExitCodes.Failed;
            }

            var asJson = parsed.GetValue(json);
            return from.IsService(parsed)
                ? await ServiceClient.Run(server.Of(parsed), async client =>
                    VerificationView.Print(
                        VerificationReading.Of(await ServiceClient.CallLong(t => client.Ledger.VerifyAsync(wanted.Request(), cancellationToken: t))), asJson))
                : await from.Run(parsed, folder => Task.FromResult(LedgerFolder.Try(
                    () => VerificationView.Print(Verify(folder, wanted.For(folder), parsed.GetValue(Progress), token).With(folder), asJson))), token);
        });
        return command;
    }

    /// <summary>Verifies a ledger and shows the progress.</summary>
    internal static Verification Verify(string folder, VerifyOptions options, bool always, CancellationToken token)
    {
        using var progress = new ProgressLine(TimeProvider.System, always);
        return LedgerVerifier.Verify(folder, options with { Progress = progress.Tell }, token);
    }
}
