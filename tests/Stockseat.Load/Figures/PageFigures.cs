using System.Diagnostics;
using Stockseat.Ledger.Reading;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>How long the pages take, and what browsers on the board cost a controller that asks meanwhile.</summary>
internal static class PageFigures
{
    private const double MostMs = 50;

    /// <summary>How often a page is loaded in a round.</summary>
    private const int Loads = 40;

    private const int Browsers = 50;

    private const double ASecond = 100;

    /// <summary>As often as the board's script refreshes it.</summary>
    private static readonly TimeSpan Refresh = TimeSpan.FromSeconds(2);

    // A 99th percentile needs a thousand asks.
    private static readonly TimeSpan LeastSpan = TimeSpan.FromSeconds(20);

    private static readonly (string Path, string Name)[] Pages =
    [
        ("/", "the board"), ("/measure/pinbed-1/check?reading1=3.638&unit=in", "a measurement before it is sent"), ("/fixture/pinbed-1", "a fixture"),
        ("/handover", "the handover"),
    ];

    /// <summary>Each page against a file of a few bytes from the same listener; the first page after a start.</summary>
    public static async Task Measure(Run run)
    {
        var first = run.Results.Add("the first page after a start", "to its last byte", "ms", "the second one", Goal.Within(MostMs, "ms"));
        await run.Interleave(
            async () =>
            {
                await using var fresh = await run.Serve(run.Place.NewLedger());
                using var one = Browser(fresh);
                return (First: await Load(one, "/", run.Token), Second: await Load(one, "/", run.Token));
            },
            () => Task.FromResult((First: 0.0, Second: 0.0)),
            (made, _) => first.Add(made.First, made.Second));

        await using var service = await run.Serve(run.Place.NewLedger());
        using var browser = Browser(service);
        foreach (var (path, name) in Pages)
        {
            var figure = run.Results.Add(name, "median", "ms", "a file of the same listener", Goal.Within(MostMs, "ms"));
            await run.Interleave(() => Median(browser, path, run.Token), () => Median(browser, "/files/icon.svg", run.Token), figure.Add);
        }
    }

    /// <summary>A page of entries from the middle of the big ledger, against the same rows read by their serials in this program.</summary>
    public static async Task Ledger(Run run)
    {
        var big = await run.BigToServe();
        var (below, rows) = (run.Plan.Entries / 2, 200);
        await using var service = await run.Serve(big);
        using var browser = Browser(service);
        var figure = run.Results.Add(
            $"a page of {rows} of {run.Plan.Entries} entries", "median", "ms", "the same rows read by their serials", Goal.Within(MostMs, "ms"));
        await run.Interleave(
            () => Median(browser, $"/ledger?below={below}", run.Token),
            () => Task.Run(() => MedianOf(() =>
            {
                using var reader = LedgerReader.Open(big);
                _ = reader.Piece(below - rows, below, rows, null);
                return Task.CompletedTask;
            })),
            figure.Add);
    }

    /// <summary>A controller's asks while browsers refresh the board, against the same asks without.</summary>
    public static async Task Browsing(Run run)
    {
        await using var service = await run.Serve(run.Place.NewLedger());
        var of = $"locate in lines, {ASecond:F0} a second, while {Browsers} browsers refresh the board";
        var (p50, p99) = (run.Results.Add(of, "p50", "ms", "no browser"), run.Results.Add(of, "p99", "ms", "no browser", Goal.AtMost(1.1)));
        var span = run.Plan.Span > LeastSpan ? run.Plan.Span : LeastSpan;
        var loaded = 0L;
        await run.Interleave(
            async () =>
            {
                using var ends = CancellationTokenSource.CreateLinkedTokenSource(run.Token);
                var browsers = Enumerable.Range(0, Browsers).Select(i => Watch(service, i, ends.Token)).ToList();
                var asks = await RandomArrivals.Run(service.Line, ASecond, span, run.Token);
                await ends.CancelAsync();
                loaded += (await Task.WhenAll(browsers)).Sum();
                return asks;
            },
            () => RandomArrivals.Run(service.Line, ASecond, span, run.Token),
            (with, without) =>
            {
                p50.Add(with.Percentile(50), without.Percentile(50));
                p99.Add(with.Percentile(99), without.Percentile(99));
            });
        run.Results.Note($"Browsers loaded the board {loaded} times in {run.Plan.Rounds + 1} rounds of {span.TotalSeconds:F0} s.");
    }

    /// <summary>A browser that has the board open, each begun at an instant of its own.</summary>
    private static async Task<long> Watch(Child service, int number, CancellationToken token)
    {
        using var browser = Browser(service);
        var loaded = 0L;
        try
        {
            await Task.Delay(Refresh * number / Browsers, token);
            while (true)
            {
                await Load(browser, "/", token);
                loaded++;
                await Task.Delay(Refresh, token);
            }
        }
        catch (OperationCanceledException) when (token.IsCancellationRequested)
        {
            return loaded;
        }
    }

    private static HttpClient Browser(Child service) => new(new SocketsHttpHandler { UseProxy = false }) { BaseAddress = new($"http://{service.Page}") };

    private static Task<double> Median(HttpClient browser, string path, CancellationToken token) => MedianOf(() => Load(browser, path, token));

    private static async Task<double> MedianOf(Func<Task> act)
    {
        var spent = new List<double>();
        for (var i = 0; i < Loads; i++)
        {
            var begun = Stopwatch.GetTimestamp();
            await act();
            spent.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }

        return spent.Order().ElementAt(Loads / 2);
    }

    private static async Task<double> Load(HttpClient browser, string path, CancellationToken token)
    {
        var begun = Stopwatch.GetTimestamp();
        using var reply = await browser.GetAsync(path, token);
        reply.EnsureSuccessStatusCode();
        _ = await reply.Content.ReadAsByteArrayAsync(token);
        return Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
    }
}
