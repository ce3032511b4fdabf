using System.Runtime.InteropServices;
using Microsoft.Extensions.Hosting;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Clients;

/// <summary>
/// Work that reads much of the ledger, for calls and for pages. A few pieces run at a time, each on a thread of its own with a lower priority than the answers,
/// which need the pool's threads, the processors and the memory. It ends soon when its client has gone or when the service stops.
/// </summary>
public sealed class HeavyWork(Door door, IHostApplicationLifetime lifetime)
{
    private readonly CallGate _checks = new("checks and reviews of the ledger", atOnce: 2, ofOne: 1, waiting: 8, waitingOfOne: 2);
    private readonly CallGate _pages = new("pages of the ledger", atOnce: 4, ofOne: 2, waiting: 64, waitingOfOne: 16);

    /// <summary>Verifies, replays or reviews; or says why not.</summary>
    /// <param name="client">For whom.</param>
    /// <param name="gone">Ends when the caller has gone.</param>
    /// <param name="work">The work; it has to end soon when its token ends.</param>
    public Task<(T? Made, Refusal? Refusal)> Check<T>(Client client, CancellationToken gone, Func<CancellationToken, T> work) =>
        Run(_checks, client, gone, work);

    /// <summary>Reads a page of entries; or says why not.</summary>
    /// <param name="client">For whom.</param>
    /// <param name="gone">Ends when the caller has gone.</param>
    /// <param name="work">The work.</param>
    public Task<(T? Made, Refusal? Refusal)> Page<T>(Client client, CancellationToken gone, Func<T> work) => Run(_pages, client, gone, _ => work());

    private async Task<(T? Made, Refusal? Refusal)> Run<T>(CallGate gate, Client client, CancellationToken gone, Func<CancellationToken, T> work)
    {
        var stopping = lifetime.ApplicationStopping;
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(gone, stopping);
        try
        {
            var (pass, refusal) = await gate.Enter(client, ends.Token);
            if (refusal is not null)
            {
                door.Count(refusal.Reason);
                return (default, refusal);
            }

            using (pass)
            {
                return (await OnItsOwnThread(() => work(ends.Token)), null);
            }
        }
        catch (OperationCanceledException) when (stopping.IsCancellationRequested && !gone.IsCancellationRequested)
        {
            return (default, Refusal.Of(Reason.ShuttingDown, "the service is stopping"));
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
            Name = "heavy work", IsBackground = true, Priority = ThreadPriority.BelowNormal,
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
