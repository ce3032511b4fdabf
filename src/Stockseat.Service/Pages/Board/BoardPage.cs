using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Gauges;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Board;

/// <summary>The board: each fixture, and whether it answers.</summary>
internal sealed class BoardPage(
    IAnswerer answerer, ReadingPorts ports, EntryLook entries, Door door, Display display, TimeProvider time, ServiceTls? tls = null,
    PlantForwarding? plant = null) : IPage
{
    /// <summary>The query that names the entry of what was just done.</summary>
    public const string DoneKey = "entry";

    private const string RefreshKey = "refresh";
    private const int ReloadSeconds = 15;

    public string Name => "";

    public string Menu => "Board";

    public Task<PageReply> Get(PageRequest request)
    {
        if (request.Path.Count > 0)
        {
            return Task.FromResult(PageReply.NoPage);
        }

        var refresh = request.Query(RefreshKey) switch { "reload" => BoardRefresh.Reload, "off" => BoardRefresh.Off, _ => BoardRefresh.Script };
        if (refresh == BoardRefresh.Reload)
        {
            request.LoadAgainAfter(ReloadSeconds);
        }

        var now = time.GetUtcNow();
        var client = request.Client;
        var lines = new FixtureLines(answerer, entries, display, now);
        var statuses = ports.Statuses.Where(p => client.MaySee(p.Fixture)).ToList();
        var situation = answerer.Situation;
        var fixtures = situation.Fixtures.Where(f => client.MaySee(f.Fixture)).Select(f => Fixture(f, lines, statuses, client)).ToList();
        var model = new BoardModel(
            request.Frame("Board", refresh == BoardRefresh.Script ? "board.js" : null),
            Sum(fixtures), [.. fixtures.Where(f => f.Answer != AnswerState.Answers)], display.Times.Second(now), refresh,
            Done(request), fixtures, [.. statuses.Where(p => situation.Find(p.Fixture) is null).Select(Port)], [.. Service()]);
        return Task.FromResult(PageReply.Show(BoardSlice.Create(model)));
    }

    private BoardFixture Fixture(FixtureState state, FixtureLines lines, List<PortStatus> ports, Client client)
    {
        var (answer, why) = lines.Judge(state);
        return new(
            state.Fixture, answer,
            (answer == AnswerState.MeasureFirst ? "measure first" : why is null ? "" : Short(why, state), why?.In(display.Length) ?? ""),
            [.. lines.Of(state), .. ports.Where(p => p.Fixture == state.Fixture).Select(Port)],
            [.. state.Holds.Values.OrderBy(h => h.Serial).Select(h => new BoardHold(h.By, h.Why, display.Times.Minute(h.At), h.Serial))],
            client.Roles.HasFlag(Roles.Measure), (client.Roles & (Roles.Locate | Roles.Measure)) != 0, client.Roles.HasFlag(Roles.Calibrate));
    }

    /// <summary>A reason in a few words, readable from afar: who holds it, or the reason's name.</summary>
    private static string Short(Refusal refusal, FixtureState state)
    {
        if (refusal.Reason != Reason.FixtureHeld)
        {
            return refusal.Info.Name.Replace('-', ' ');
        }

        var by = Refusal.Cut(state.Holds.Values.MinBy(h => h.Serial)!.By);
        return state.Holds.Count == 1 ? $"held by {by}" : $"held by {by} and {PrintedNumbers.Whole(state.Holds.Count - 1)} more";
    }

    private static string Sum(List<BoardFixture> fixtures)
    {
        var (all, answer) = (fixtures.Count, fixtures.Count(f => f.Answer == AnswerState.Answers));
        return all == 0 ? "No fixture is known"
            : fixtures.All(f => f.Answer == AnswerState.MeasureFirst) ? all == 1 ? "The fixture waits for a measurement"
                : $"All {PrintedNumbers.Whole(all)} fixtures wait for a measurement"
            : answer == all ? all == 1 ? "The fixture answers" : $"All {PrintedNumbers.Whole(all)} fixtures answer"
            : answer == 0 ? all == 1 ? "The fixture does not answer" : $"None of {PrintedNumbers.Whole(all)} fixtures answers"
            : $"{PrintedNumbers.Whole(answer)} of {PrintedNumbers.Whole(all)} fixtures {(answer == 1 ? "answers" : "answer")}";
    }

    /// <summary>What this client has just done, from its entry: the address alone proves nothing.</summary>
    private string? Done(PageRequest request) =>
        long.TryParse(request.Query(DoneKey), NumberStyles.None, CultureInfo.InvariantCulture, out var serial)
            && entries.Find(serial) is { } body && body.Client == request.Client.Name && EntryText.Of(body, display.Length) is { } said
            ? $"Recorded as entry {PrintedNumbers.Whole(serial)}: {body.Fixture} {said}" : null;

    private static BoardLine Port(PortStatus port) => new(
        $"Gauge port {port.Name}",
        $"{port.Gauge} is {port.State switch
        {
            PortState.Listening => "not connected: the port waits for it",
            PortState.Connecting => "not connected: the service calls it again and again",
            _ => "connected",
        }}" + (port.LastCause is { } cause ? $"; last problem: {cause}" : ""),
        port.State != PortState.Connected);

    private IEnumerable<BoardLine> Service()
    {
        var seals = answerer.Seals;
        yield return new(
            "Ledger", $"entry {PrintedNumbers.Whole(answerer.Serial)}, {(answerer.Writable ? "can be written" : "can't be written")}, "
                + (seals.Key is null ? "not sealed" : $"sealed, {PrintedNumbers.Count(seals.Unsealed, "entry", "entries")} since the last seal"),
            !answerer.Writable);
        if (tls is not null)
        {
            yield return new("Certificate", tls.Advice ?? $"valid for {CertificateEnd.Days((int)tls.Left.TotalDays)}", tls.Advice is not null);
        }

        foreach (var line in plant is null ? [] : PlantLines.Of(plant.State, plant.Lag.Entries, plant.Lag.Time))
        {
            yield return line;
        }

        if (door.Counts.OrderBy(c => c.Why.Name(), StringComparer.Ordinal).ToList() is { Count: > 0 } turned)
        {
            yield return new("Turned away since the start", string.Join(", ", turned.Select(c => $"{c.Why.Name()} {PrintedNumbers.Whole(c.Count)}")));
        }

        if (answerer.LogDropped is > 0 and var dropped)
        {
            yield return new("Log", $"{PrintedNumbers.Count(dropped, "line")} dropped since the start: nothing read the log fast enough", true);
        }
    }
}
