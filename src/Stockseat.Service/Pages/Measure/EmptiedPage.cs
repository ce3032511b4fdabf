using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Pages.Holds;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages.Measure;

/// <summary>Somebody emptied or refilled the nests, so the measurement does not count any more: /emptied/FIXTURE.</summary>
internal sealed class EmptiedPage(IAnswerer answerer, HoldsForm forms) : IPage
{
    public string Name => "emptied";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(OnFixture(request, state => Show(request, state, request.NewForm())));

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (request.Path is not [var fixture])
        {
            return PageReply.NoForm;
        }

        var ask = new EmptiedAsk(request.Caller with { Request = form.Request }, fixture);
        return await forms.Send(request, form, ask, (again, status) => OnFixture(request, state => Show(request, state, again, status)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnFixture(request, state => Show(request, state, request.Again(form, [said], keep: true), HoldsForm.NotAsked)));

    private PageReply OnFixture(PageRequest request, Func<FixtureState, PageReply> show) => request.Path is not [var fixture] ? PageReply.NoPage
        : request.Client.Lacks(Roles.Locate | Roles.Measure, EmptiedAsk.VerbName) is { } lacking ? PageReply.Refused(lacking)
        : !NameText.MayBeFixture(fixture)
            ? PageReply.Refused(Refusal.Of(Reason.FixtureUnknown, $"'{Refusal.Shown(fixture)}' is not the name of a fixture"))
        : !request.Client.MaySee(fixture) ? PageReply.Refused(request.Client.Foreign(fixture))
        : answerer.Situation.Find(fixture) is { } state ? show(state) : PageReply.Refused(answerer.Unknown(fixture));

    private static PageReply Show(PageRequest request, FixtureState state, PageForm form, int status = StatusCodes.Status200OK)
    {
        var model = new EmptiedModel(request.Frame($"Nests emptied: {state.Fixture}"), state.Fixture, form, state.Measurement?.Lot);
        return PageReply.Show(EmptiedSlice.Create(model), status);
    }
}

/// <summary>The form that says that nests were emptied.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Form">The form.</param>
/// <param name="Lot">The lot that is measured now; null: none.</param>
public sealed record EmptiedModel(PageFrame Frame, string Fixture, PageForm Form, string? Lot);
