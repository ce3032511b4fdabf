using System.Diagnostics;
using System.Globalization;
using Stockseat.Ledger.Writing;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Forwarding;

namespace Stockseat.Load.Generating;

/// <summary>Plays many cells: makes a ledger for each with the service's own writer, and sends it to a plant store with the service's own forwarder.</summary>
internal static class CellsGenerator
{
    /// <summary>Makes and sends the ledgers, one after the other; each is deleted once it is stored.</summary>
    /// <param name="address">The store, which has its tables already.</param>
    /// <param name="cells">How many cells.</param>
    /// <param name="entries">How many entries the ledger of each gets.</param>
    /// <param name="say">Receives the progress, in words.</param>
    /// <param name="token">Stops it.</param>
    public static async Task Run(PlantAddress address, int cells, long entries, Action<string> say, CancellationToken token)
    {
        var begun = Stopwatch.StartNew();
        for (var i = 1; i <= cells; i++)
        {
            var folder = Directory.CreateTempSubdirectory("stockseat-cell-");
            try
            {
                var cell = string.Create(CultureInfo.InvariantCulture, $"cell-{i}");
                await LedgerGenerator.Run(folder.FullName, Repository.Fixtures, entries, _ => { }, token, cell);
                await Send(address, folder.FullName, token);
                say($"{cell} of {cells}");
            }
            finally
            {
                folder.Delete(recursive: true);
            }
        }

        say($"{cells} ledgers of {entries} entries in {begun.Elapsed.TotalSeconds:F1} s");
    }

    private static async Task Send(PlantAddress address, string data, CancellationToken token)
    {
        using var writer = LedgerWriter.Open(data, TimeProvider.System);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(token);
        await using var forwarder = new Forwarder(address, data, writer, TimeProvider.System, new Quiet());
        var run = forwarder.Run(stop.Token);
        while (forwarder.State.Stored < writer.Serial && !run.IsCompleted)
        {
            await Task.WhenAny(run, Task.Delay(10, token));
        }

        await stop.CancelAsync();
        await run.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        token.ThrowIfCancellationRequested();
    }

    /// <summary>Says nothing until something is wrong.</summary>
    private sealed class Quiet : IForwardingNews
    {
        public void Reached(string store)
        {
        }

        public void Lost(string cause) => Console.Error.WriteLine(cause);

        public void CaughtUp(long serial)
        {
        }

        public void Stopped(string fault) => Console.Error.WriteLine(fault);

        public void GoesOn()
        {
        }
    }
}
