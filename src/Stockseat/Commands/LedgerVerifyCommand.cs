using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Cli.Commands;

/// <summary>Verifies a ledger where it lies, or asks the service to.</summary>
internal static class LedgerVerifyCommand
{
    private static readonly Option<bool> Progress =
        new("--progress") { Description = "tells on stderr how far it is, also where that is no terminal; with --data" };

    public static Command Make()
    {
        var demands = new VerifyDemands.Options();
        var (data, server, json) = (LedgerFolder.Option(), Common.Server(), Common.Json());
        var command = new Command("verify", "walks the whole chain: 0 whole, 1 not whole, 2 could not be checked");
        demands.AddTo(command);
        foreach (var option in new Option[] { Progress, data, server, json })
        {
            command.Options.Add(option);
        }

        command.SetAction(async (parsed, token) =>
        {
            if (await demands.Read(parsed, token) is not { } wanted)
            {
                return ExitCodes.Failed;
            }

            var asJson = parsed.GetValue(json);
            return parsed.GetValue(data) is { } folder
                ? LedgerFolder.Try(() => VerificationView.Print(Verify(folder, wanted.For(folder), parsed.GetValue(Progress), token).With(folder), asJson))
                : await ServiceClient.Run(parsed.GetValue(server)!, async client =>
                    VerificationView.Print(
                        VerificationReading.Of(await ServiceClient.CallLong(t => client.Ledger.VerifyAsync(wanted.Request(), cancellationToken: t))), asJson));
        });
        return command;
    }

    /// <summary>Verifies and tells how far it is.</summary>
    internal static Verification Verify(string folder, VerifyOptions options, bool always, CancellationToken token)
    {
        using var progress = new ProgressLine(TimeProvider.System, always);
        return LedgerVerifier.Verify(folder, options with { Progress = progress.Tell }, token);
    }
}
