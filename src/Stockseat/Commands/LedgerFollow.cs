using System.Runtime.InteropServices;
using Grpc.Core;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Commands;

/// <summary>The newest entries, and each that follows.</summary>
internal static class LedgerFollow
{
    /// <summary>Runs until it is interrupted, which is its ordinary end, or until the service stops.</summary>
    public static async Task<int> Run(ServiceClient client, int count, bool json, Display display)
    {
        using var interrupted = new CancellationTokenSource();
        void Interrupt(PosixSignalContext signal)
        {
            signal.Cancel = true;
            interrupted.Cancel();
        }

        using var keyboard = PosixSignalRegistration.Create(PosixSignal.SIGINT, Interrupt);
        using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Interrupt);
        var newest = (await client.Call(token => client.Ledger.ListEntriesAsync(new() { After = -count }, cancellationToken: token))).Entries;
        LedgerCommands.Print(newest.Select(EntryReading.Of), json, display);
        using var call = client.Ledger.Watch(new() { After = newest.Count == 0 ? 0 : newest[^1].Serial }, cancellationToken: interrupted.Token);
        try
        {
            while (await call.ResponseStream.MoveNext(interrupted.Token))
            {
                Show(EntryReading.Of(call.ResponseStream.Current.Entry), json, display);
            }
        }
        catch (Exception e) when (e is RpcException or OperationCanceledException && interrupted.IsCancellationRequested)
        {
            return ExitCodes.Done;
        }

        Console.Error.WriteLine("the service ended the watch; run it again");
        return ExitCodes.Failed;
    }

    private static void Show(EntryRow entry, bool json, Display display)
    {
        if (json)
        {
            Json.Line(EntryView.Of(entry));
        }
        else
        {
            Plain.Line(string.Join("  ", EntryView.ToRow(entry, display)));
        }
    }
}
