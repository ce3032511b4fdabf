using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Explaining;
using Stockseat.Audit.Replaying;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Service.Clients;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Entries;

/// <summary>One entry, /entry/SERIAL, with what came of it; and how it was computed, /entry/SERIAL/working.</summary>
internal sealed class EntryPage(PageLedger ledger, Display display) : IPage
{
    /// <summary>How many later entries of the fixture, and how many later notes, are looked through for what came of it.</summary>
    private const int Later = 500;

    private const string WorkingName = "working";

    public string Name => "entry";

    public async Task<PageReply> Get(PageRequest request)
    {
        if (request.Path.Count is not (1 or 2) || (request.Path.Count == 2 && request.Path[1] != WorkingName))
        {
            return PageReply.NoPage;
        }

        if (PageLedger.Denied(request.Client) is { } denied)
        {
            return denied;
        }

        if (!long.TryParse(request.Path[0], NumberStyles.None, CultureInfo.InvariantCulture, out var serial) || serial == 0)
        {
            return PageReply.NoPage;
        }

        return request.Path.Count == 2
            ? await ledger.Check(request, (folder, _) => LedgerReplay.One(folder, serial, display.Length), replayed => Show(request, serial, replayed))
            : await ledger.Page(request, reader => Read(reader, serial), read => Show(request, serial, read));
    }

    private static Found Read(LedgerReader reader, long serial)
    {
        var row = reader.Find(serial);
        return row is null ? new(reader.Last, null, [], true) : Read(reader, row);
    }

    private static Found Read(LedgerReader reader, EntryRow row)
    {
        var last = reader.Last;
        var about = reader.Piece(row.Serial, last, Later, new(Kind: Kinds.Note)).Rows;
        if (row.Fixture is null)
        {
            return new(last, row, about, true);
        }

        var piece = reader.Piece(row.Serial, last, Later, new(row.Fixture));
        return new(last, row, [.. piece.Rows.Concat(about).DistinctBy(r => r.Serial).OrderBy(r => r.Serial)], piece.End >= last);
    }

    private static PageReply Missing(long serial, long last) => PageReply.Problem(
        StatusCodes.Status404NotFound, "There is no such entry",
        $"Entry {PrintedNumbers.Whole(serial)} is not in the ledger, which ends with entry {PrintedNumbers.Whole(last)}; it may be in one that was moved "
            + "away.");

    private PageReply Show(PageRequest request, long serial, Found found)
    {
        if (found.Row is not { } row)
        {
            return Missing(serial, found.Last);
        }

        var body = row.TryReadBody();
        var later = found.Later.Select(r => (Row: r, Body: r.TryReadBody())).Where(r => r.Body is not null).ToDictionary(r => r.Body!.Serial, r => r);
        var fate = body is null ? [] : EntryFate.Of(body, later.Values.Select(r => r.Body!).OrderBy(b => b.Serial));
        var isAnswer = body is not null && EntryFate.IsAnswer(body);
        var (values, more) = Values(row);
        return PageReply.Show(EntrySlice.Create(new(
            request.Frame($"Entry {PrintedNumbers.Whole(serial)}"), EntryLine.Of(row, display), Convert.ToHexStringLower(row.Hash), values, more,
            [.. fate.Select(f => (f.What, EntryLine.Of(later[f.Entry.Serial].Row, display)))],
            isAnswer ? [.. Lacks(fate, found.All)] : [],
            isAnswer && fate.All(f => f.What != EntryFate.CarriedOut) && request.Client.Roles.HasFlag(Roles.Locate), found.Last)));
    }

    /// <summary>What an answer lacks: said only of what was looked through.</summary>
    private static IEnumerable<string> Lacks(IReadOnlyList<(string What, EntryBody Entry)> fate, bool all)
    {
        var among = all ? "" : $" among the next {PrintedNumbers.Whole(Later)} entries of its fixture";
        if (fate.All(f => f.What != EntryFate.Received))
        {
            yield return $"Not received: no confirmation read its numbers back{among}.";
        }

        if (fate.All(f => f.What != EntryFate.CarriedOut))
        {
            yield return $"Not carried out: nobody said that its move went well{among}.";
        }
    }

    private static (IReadOnlyList<(string Name, string Text)> Values, bool More) Values(EntryRow row)
    {
        try
        {
            return BodyValues.Of(row.Body);
        }
        catch (System.Text.Json.JsonException)
        {
            return ([("body", "can't be read as JSON")], false);
        }
    }

    private PageReply Show(PageRequest request, long serial, (ReplayResult Result, Working Working)? replayed)
    {
        if (replayed is not var (result, working))
        {
            return PageReply.Problem(
                StatusCodes.Status404NotFound, "There is no such entry", $"Entry {PrintedNumbers.Whole(serial)} is not in the ledger; see the ledger's page.");
        }

        var came = result.Unreadable is { } fault ? $"This entry can't be computed again: {fault}."
            : !result.Agrees ? "Computed again from its inputs, this entry comes out DIFFERENTLY."
            : result.Same + result.Within > 0 ? "Computed again from its inputs, this entry comes out as it was recorded."
            : "This entry is not computed from others.";
        return PageReply.Show(WorkingSlice.Create(new(
            request.Frame($"How entry {PrintedNumbers.Whole(serial)} was computed"), serial, came, result.Agrees && result.Unreadable is null,
            [.. result.Differences.SelectMany(d => d.Fields.Select(f => $"{f.Path}: recorded {f.Recorded}, computed {f.Recomputed}").Prepend(d.Text))],
            working.Sections, display.Length)));
    }

    /// <summary>An entry and what came after it.</summary>
    /// <param name="Last">The last serial of the ledger.</param>
    /// <param name="Row">The entry; null when there is none.</param>
    /// <param name="Later">Entries after it.</param>
    /// <param name="All">Whether they are all of its fixture.</param>
    private sealed record Found(long Last, EntryRow? Row, IReadOnlyList<EntryRow> Later, bool All);
}
