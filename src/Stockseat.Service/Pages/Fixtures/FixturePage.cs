using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Pages.Board;
using Stockseat.Service.Pages.Entries;
using Stockseat.Service.Pages.Holds;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>A fixture, /fixture/NAME: its nest at any diameter, what its revision means, its revisions, what lacks until it is proven, its rechecks.</summary>
internal sealed class FixturePage(IAnswerer answerer, PageLedger ledger, EntryLook entries, HoldsForm holds, Display display, TimeProvider time) : IPage
{
    /// <summary>The values of the query.</summary>
    public const string DiameterKey = "diameter", PurposeKey = "purpose";

    private const int Rechecks = 20;

    public string Name => "fixture";

    public async Task<PageReply> Get(PageRequest request)
    {
        if (request.Path is not [var fixture])
        {
            return PageReply.NoPage;
        }

        var client = request.Client;
        if (!NameText.MayBeFixture(fixture) || !client.MaySee(fixture) || answerer.Situation.Find(fixture) is not { } state)
        {
            return PageReply.Refused(
                !NameText.MayBeFixture(fixture) ? Refusal.Of(Reason.FixtureUnknown, $"'{Refusal.Shown(fixture)}' is not the name of a fixture")
                : client.MaySee(fixture) ? answerer.Unknown(fixture) : client.Foreign(fixture));
        }

        return client.Lacks(Roles.Review | Roles.Calibrate, "reading rechecks") is null
            ? await ledger.Page(
                request, reader => reader.Rechecks(fixture, long.MaxValue, Rechecks),
                rows => Show(request, state, ShownRechecks.Of(fixture, rows, display)))
            : Show(request, state, null);
    }

    private PageReply Show(PageRequest request, FixtureState state, ShownRechecks? rechecks)
    {
        var purpose = request.Query(PurposeKey) == "place" ? Purpose.Place : Purpose.Pick;
        var seat = state.InForce is { } revision ? SeatView.Of(revision, purpose, request.Query(DiameterKey)?.Trim() ?? "", display.Length) : null;
        var (answer, why) = new FixtureLines(answerer, entries, display, time.GetUtcNow()).Judge(state);
        return PageReply.Show(
            FixtureSlice.Create(new(
                request.Frame(state.Fixture), state.Fixture, answer, why?.In(display.Length),
                [.. state.Holds.Values.OrderBy(h => h.Serial).Select(holds.Shown)],
                request.Client.Roles.HasFlag(Roles.Calibrate), seat, RevisionWords.Of(state),
                [.. state.Unproven.Select(l => Proof.Said(l, display.Length))], rechecks)),
            seat?.Fault is null ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest);
    }
}
