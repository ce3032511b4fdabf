using System.Runtime.InteropServices;
using Grpc.Core;
using Microsoft.Extensions.Hosting;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Grpc;

/// <summary>
/// Calls that read much of the ledger. A few run at a time, each on a thread of its own with a lower priority than the answers, which need the pool's threads,
/// the processors and the memory. A call ends soon when its client has gone or when the service stops.
/// </summary>
internal sealed class HeavyCalls(Door door, IHostApplicationLifetime lifetime)
{
    private readonly CallGate _checks = new("checks and reviews of the ledger", atOnce: 2, ofOne: 1, waiting: 8, waitingOfOne: 2);
    private readonly CallGate _pages = new("pages of the ledger", atOnce: 4, ofOne: 2, waiting: 64, waitingOfOne: 16);

    /// <summary>Verifies, replays or reviews.</summary>
    public Task<T> Check<T>(Client client, ServerCallContext context, Func<CancellationToken, T> work) => Run(_checks, client, context, work);

    /// <summary>Reads a page of entries.</summary>
    public Task<T> Page<T>(Client client, ServerCallContext context, Func<T> work) => Run(_pages, client, context, _ => work());

    private async Task<T> Run<T>(CallGate gate, Client client, ServerCallContext context, Func<CancellationToken, T> work)
    {
        var stopping = lifetime.ApplicationStopping;
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken, stopping);
        try
        {
            var (pass, refusal) = await gate.Enter(client, ends.Token);
            if (refusal is not null)
            {
                door.Count(refusal.Reason);
                throw refusal.ToRpc();
            }

            using (pass)
            {
                return await OnItsOwnThread(() => work(ends.Token));
            }
        }
        catch (OperationCanceledException) when (stopping.IsCancellationRequested && !context.CancellationToken.IsCancellationRequested)
        {
            throw Refusal.Of(Reason.ShuttingDown, "the service is stopping").ToRpc();
        }
    }

    private static Task<T> OnItsOwnThread<T>(Func<T> work)
    {
        var done = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        var thread = new Thread(() =>
        {
            StandBack();
            try
            {
                done.SetResult(work());
            }
            catch (Exception e)
            {
                done.SetException(e); // The one who waits for it handles it.
            }
        })
        {
            Name = "heavy call", IsBackground = true, Priority = ThreadPriority.BelowNormal,
        };
        thread.Start();
        return done.Task;
    }

    /// <summary>On Linux a thread's only priority is its niceness. Where that may not be changed it stays as it is.</summary>
    private static void StandBack()
    {
        const int ThisThread = 0;
        const int Nicer = 10;
        if (OperatingSystem.IsLinux())
        {
            _ = setpriority(ThisThread, 0, Nicer);
        }
    }

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int setpriority(int which, uint who, int priority);
}
