using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Hold;
using Stockseat.Answers.State;

namespace Stockseat.Service.Pages.Holds;

/// <summary>Ends a hold: /release/FIXTURE/ENTRY, where ENTRY is the entry with which the hold began.</summary>
internal sealed class ReleasePage(HoldsForm holds) : IPage
{
    /// <summary>The field of whose hold it is: the hold may have ended when the form is sent for the second time.</summary>
    private const string Of = "of";

    public string Name => "release";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(
        OnHold(request, (state, hold) => Show(request, state, hold, request.NewForm() with { Typed = new Dictionary<string, string> { [Of] = hold.By } })));

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (request.Path is not [var fixture, _])
        {
            return PageReply.NoPage;
        }

        var (by, why, faults) = HoldsForm.Read(form);
        if (faults.Count > 0)
        {
            return OnHold(request, (state, hold) => Show(request, state, hold, request.Again(form, faults, keep: true), StatusCodes.Status400BadRequest));
        }

        var ask = new ReleaseAsk(request.Caller with { Request = form.Request }, fixture) { By = by, Why = why, Of = form[Of] };
        return await holds.Send(request, form, ask, (again, status) => OnHold(request, (state, hold) => Show(request, state, hold, again, status)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnHold(request, (state, hold) => Show(request, state, hold, request.Again(form, [said], keep: true), HoldsForm.NotAsked)));

    private PageReply OnHold(PageRequest request, Func<FixtureState, StandingHold, PageReply> show)
    {
        if (request.Path is not [var fixture, var entry])
        {
            return PageReply.NoPage;
        }

        var (state, refusal) = holds.Find(request.Client, fixture, ReleaseAsk.VerbName);
        if (state is null)
        {
            return PageReply.Refused(refusal!);
        }

        var isSerial = long.TryParse(entry, NumberStyles.None, CultureInfo.InvariantCulture, out var serial);
        return isSerial && state.Holds.Values.FirstOrDefault(h => h.Serial == serial) is { } hold
            ? show(state, hold)
            : PageReply.Problem(StatusCodes.Status404NotFound, "This hold has ended", $"{fixture} has no hold that began with this entry; see the board.");
    }

    private PageReply Show(PageRequest request, FixtureState state, StandingHold hold, PageForm form, int status = StatusCodes.Status200OK)
    {
        var others = state.Holds.Values.Where(h => h.Serial != hold.Serial).OrderBy(h => h.Serial).Select(holds.Shown).ToList();
        return PageReply.Show(
            HoldSlice.Create(new(request.Frame($"Release {state.Fixture}"), state.Fixture, form, holds.Shown(hold), others)), status);
    }
}
