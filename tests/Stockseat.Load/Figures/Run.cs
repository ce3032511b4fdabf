using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>What a run was asked for.</summary>
internal sealed record Plan
{
    public required int Rounds { get; init; }

    /// <summary>How long each part of a round lasts.</summary>
    public required TimeSpan Span { get; init; }

    /// <summary>How long both sides are asked before the first round counts.</summary>
    public required TimeSpan WarmUp { get; init; }

    /// <summary>The service.</summary>
    public required string Service { get; init; }

    /// <summary>The program that it is compared with.</summary>
    public required string Baseline { get; init; }

    /// <summary>An ordinary build of the service, for its start and memory; null when none was named.</summary>
    public string? Ordinary { get; init; }

    /// <summary>How many entries the big ledger has.</summary>
    public required long Entries { get; init; }

    /// <summary>The folder of a big ledger that was made before and is not changed; null to make one.</summary>
    public string? Big { get; init; }
}

/// <summary>A run: its plan, its folder, its results, and the big ledger once it is needed.</summary>
internal sealed record Run(Plan Plan, Workplace Place, Results Results, CancellationToken Token)
{
    private string? _big;
    private string? _served;

    /// <summary>The echo, started.</summary>
    public Task<Child> Echo() => Child.Start(Plan.Baseline, ["echo"], Token);

    /// <summary>The service under test, started.</summary>
    public Task<Child> Serve(string data) => Place.Serve(Plan.Service, data, Token);

    /// <summary>The big ledger, to be read.</summary>
    public async Task<string> Big() => _big ??= Plan.Big ?? await Place.BigLedger(Plan.Entries, Token);

    /// <summary>The big ledger, for serving from it; a kept one is copied.</summary>
    public async Task<string> BigToServe() => _served ??= Plan.Big is { } kept ? Place.CopyOf(kept) : await Big();

    /// <summary>Rounds of A, B, A, B; before them one of each that does not count.</summary>
    public async Task Interleave<T>(Func<Task<T>> subject, Func<Task<T>> baseline, Action<T, T> add)
    {
        await subject();
        await baseline();
        for (var i = 0; i < Plan.Rounds; i++)
        {
            add(await subject(), await baseline());
        }
    }
}
