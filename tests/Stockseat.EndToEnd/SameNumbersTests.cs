using System.Globalization;
using System.Text.RegularExpressions;
using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>
/// The native program and the ordinary build write the same bodies, to the last bit of each number: a ledger of one build is replayed by the other.
/// </summary>
public partial class SameNumbersTests
{
    private const int AsksOfEach = 100;

    // What the demo's revisions allow, in micrometres, and how many nests they have.
    private static readonly (string Fixture, int From, int To, int Columns, int Rows)[] Demo =
        [("pinbed-1", 60_000, 100_000, 6, 4), ("rollers-3", 60_000, 120_000, 3, 1), ("veerack-2", 43_900, 95_250, 5, 2)];

    [Theory]
    [InlineData(2026)]
    public async Task Locate_OnBoth_WritesTheSameBodies(int seed)
    {
        var asks = Asks(new Random(seed));
        using var nativeCell = new Cell();
        using var ordinaryCell = new Cell();

        var replies = await Task.WhenAll(Ask(Built.Native, nativeCell, asks), Ask(Built.Ordinary, ordinaryCell, asks));

        Assert.All(replies[1], (reply, i) => Assert.True(reply.StartsWith("ok ", StringComparison.Ordinal), $"seed {seed}: {asks[i]} got {reply}"));
        Assert.Equal(replies[1], replies[0]);
        var (native, ordinary) = (Bodies(nativeCell), Bodies(ordinaryCell));
        var answers = ordinary.Where(b => b.Contains(" kind=\"answer\" ", StringComparison.Ordinal)).ToList();
        Assert.Equal(asks.Count, answers.Count);
        Assert.All(
            ["digest=\"", "diameter=0.", "position=[", "orientation=[", "shiftBase=[", "shiftOrigin=["], part =>
                Assert.All(answers, b => Assert.Contains(' ' + part, b, StringComparison.Ordinal)));
        Assert.Equal(ordinary, native);

        // Each build finds the other build's ledger intact.
        (await Built.Native.Run("ledger", "verify", "--data", ordinaryCell.Data)).Exits(0);
        (await Built.Ordinary.Run("ledger", "verify", "--data", nativeCell.Data)).Exits(0);
    }

    private static List<string> Asks(Random random) => [.. Enumerable.Range(0, Demo.Length * AsksOfEach).Select(i =>
    {
        var (fixture, from, to, columns, rows) = Demo[i % Demo.Length];

        // Both ends of the range come first.
        var micrometres = (i / Demo.Length) switch { 0 => from, 1 => to, _ => random.Next(from, to + 1) };
        var diameter = random.Next(4) == 0 && i / Demo.Length > 1
            ? string.Create(CultureInfo.InvariantCulture, $"{Math.Clamp(micrometres / 25_400m, (from / 25_400m) + 0.0001m, (to / 25_400m) - 0.0001m):0.0000}in")
            : string.Create(CultureInfo.InvariantCulture, $"{micrometres / 1000m:0.000}mm");
        return $"locate fixture={fixture} diameter={diameter} purpose={(random.Next(3) == 0 ? "place" : "pick")} "
            + $"nest={random.Next(columns)},{random.Next(rows)} tag=t{i}";
    })];

    private static async Task<List<string>> Ask(Built program, Cell cell, List<string> asks)
    {
        await using var service = await program.Serve(cell);
        using var socket = await service.Connect();
        var replies = new List<string>();
        foreach (var ask in asks)
        {
            replies.Add((await socket.Ask(ask)).Text);
        }

        await service.Terminate();
        return replies;
    }

    /// <summary>
    /// Each entry without its instant and the client's port, in its bytes from the ledger; without entries of start and stop, which name the process.
    /// </summary>
    private static List<string> Bodies(Cell cell) =>
        [.. LedgerRows.Read(cell.Data).Where(r => !r.Kind.StartsWith("service-", StringComparison.Ordinal)).Select(r =>
        string.Concat(r.Body.EnumerateObject().Where(p => p.Name is not ("at" or "address"))
            .Select(p => $" {p.Name}={CarriedInstant().Replace(p.Value.GetRawText(), "")} ")))];

    /// <summary>The same for entries that a snapshot carries.</summary>
    [GeneratedRegex("\"(at|address)\":\"[^\"]*\",")]
    private static partial Regex CarriedInstant();
}
