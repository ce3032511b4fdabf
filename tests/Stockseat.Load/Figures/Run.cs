using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>What a run was asked for.</summary>
internal sealed record Plan
{
    public required int Rounds { get; init; }

    public required TimeSpan Span { get; init; }

    /// <summary>The build that is put under load.</summary>
    public required string Program { get; init; }

    /// <summary>The native program; null when it was not named.</summary>
    public string? Native { get; init; }

    /// <summary>The ordinary build.</summary>
    public required string Ordinary { get; init; }

    /// <summary>How many entries the big ledger has.</summary>
    public required long Entries { get; init; }
}

/// <summary>A run: its plan, its folder, its results.</summary>
internal sealed record Run(Plan Plan, Workplace Place, Results Results, CancellationToken Token)
{
    /// <summary>Rounds of A, B, A, B; one of each before them, which does not count, for the run-time's own warming up.</summary>
    public async Task Interleave(Figure figure, Func<Task<double>> subject, Func<Task<double>> baseline)
    {
        await subject();
        await baseline();
        for (var i = 0; i < Plan.Rounds; i++)
        {
            figure.Add(await subject(), await baseline());
        }
    }

    public Task Interleave(Figure figure, ILoad subject, ILoad baseline) =>
        Interleave(figure, () => subject.Run(Plan.Span, Token), () => baseline.Run(Plan.Span, Token));
}
