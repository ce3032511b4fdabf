using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Hold;
using Stockseat.Answers.State;

namespace Stockseat.Service.Pages.Holds;

/// <summary>Somebody is at a fixture: /hold/FIXTURE.</summary>
internal sealed class HoldPage(HoldsForm holds) : IPage
{
    public string Name => "hold";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(OnFixture(request, state => Show(request, state, request.NewForm())));

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (request.Path is not [var fixture])
        {
            return PageReply.NoPage;
        }

        var (by, why, faults) = HoldsForm.Read(form);
        if (faults.Count > 0)
        {
            return OnFixture(request, state => Show(request, state, request.Again(form, faults, keep: true), StatusCodes.Status400BadRequest));
        }

        var ask = new HoldAsk(request.Caller with { Request = form.Request }, fixture) { By = by, Why = why };
        return await holds.Send(request, form, ask, (again, status) => OnFixture(request, state => Show(request, state, again, status)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnFixture(request, state => Show(request, state, request.Again(form, [said], keep: true), HoldsForm.NotAsked)));

    private PageReply OnFixture(PageRequest request, Func<FixtureState, PageReply> show)
    {
        if (request.Path is not [var fixture])
        {
            return PageReply.NoPage;
        }

        var (state, refusal) = holds.Find(request.Client, fixture, HoldAsk.VerbName);
        return state is null ? PageReply.Refused(refusal!) : show(state);
    }

    private PageReply Show(PageRequest request, FixtureState state, PageForm form, int status = StatusCodes.Status200OK)
    {
        var others = state.Holds.Values.OrderBy(h => h.Serial).Select(holds.Shown).ToList();
        return PageReply.Show(HoldSlice.Create(new(request.Frame($"Hold {state.Fixture}"), state.Fixture, form, null, others)), status);
    }
}
