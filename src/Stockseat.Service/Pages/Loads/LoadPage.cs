using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Pages.Holds;
using Stockseat.Service.Texts;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Loads;

/// <summary>What stands in the nests of a fixture, and the form with which somebody says so: /load/FIXTURE.</summary>
internal sealed class LoadPage(IAnswerer answerer, HoldsForm forms, Display display) : IPage
{
    /// <summary>The fields of the form.</summary>
    public const string Lot = "lot", First = "first", Nests = "nests";

    public string Name => "load";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(OnFixture(request, state => Show(request, state, request.NewForm())));

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (request.Path is not [var fixture])
        {
            return PageReply.NoForm;
        }

        var (ask, faults) = Read(request, fixture, form);
        return ask is null
            ? OnFixture(request, state => Show(request, state, request.Again(form, faults, keep: true), StatusCodes.Status400BadRequest))
            : await forms.Send(request, form, ask, (again, status) => OnFixture(request, state => Show(request, state, again, status)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnFixture(request, state => Show(request, state, request.Again(form, [said], keep: true), HoldsForm.NotAsked)));

    private (LoadedAsk? Ask, IReadOnlyList<string> Faults) Read(PageRequest request, string fixture, SentForm form)
    {
        List<string> faults = [];
        var (lot, first, nests) = (form[Lot].Trim(), form[First].Trim(), form[Nests].Trim());
        if (lot.Length > 0 && !NameText.IsName(lot))
        {
            faults.Add($"The lot is '{Refusal.Shown(lot)}'; {NameText.Expected} was expected.");
        }

        int? count = null;
        if (first.Length > 0)
        {
            count = NestText.Whole(first);
            if (count is null)
            {
                faults.Add($"How many nests is '{Refusal.Shown(first)}'; a number such as 12 was expected.");
            }
        }

        var single = nests.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(NestText.Of).ToList();
        if (single.Contains(null))
        {
            faults.Add($"The nests are '{Refusal.Shown(nests)}'; column,row of each was expected, with a space between two, such as 0,0 1,0.");
        }

        return faults.Count > 0 ? (null, faults) : (new(request.Caller with { Request = form.Request }, fixture)
        {
            Lot = lot.Length > 0 ? lot : null,
            LotTerms = answerer.Lot(lot.Length > 0 ? lot : null),
            First = count,
            Nests = single.Count > 0 ? [.. single.OfType<int[]>()] : null,
        }, faults);
    }

    private PageReply OnFixture(PageRequest request, Func<FixtureState, PageReply> show) => request.Path is not [var fixture] ? PageReply.NoPage
        : forms.Find(request.Client, fixture, LoadedAsk.VerbName, Roles.Locate | Roles.Measure) is var (state, refusal) && state is not null ? show(state)
        : PageReply.Refused(refusal!);

    private PageReply Show(PageRequest request, FixtureState state, PageForm form, int status = StatusCodes.Status200OK)
    {
        var lots = answerer.Lots.Keys.Concat(answerer.Situation.Lots.Keys).Distinct().Order(StringComparer.Ordinal);
        return PageReply.Show(
            LoadSlice.Create(new(
                request.Frame($"Nests loaded: {state.Fixture}"), state.Fixture, form, LoadWords.Of(state), state.Load?.Open?.Answer, [.. lots],
                state.InForce?.Layout is { } layout ? (layout.Columns, layout.Rows) : null,
                NestMap.Of(state, display.Length), request.Client.Require.Contains("lot"))),
            status);
    }
}

/// <summary>What stands in the nests, and the form that says so.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Form">The form.</param>
/// <param name="Now">What stands in the nests, in words.</param>
/// <param name="Open">The answer whose move is unfinished; null: none.</param>
/// <param name="Lots">The lots that are known.</param>
/// <param name="Layout">Columns and rows; null: no revision is in force.</param>
/// <param name="Map">Its nests, the highest row first; empty: they are not shown.</param>
/// <param name="NeedsLot">Whether a lot has to be stated.</param>
public sealed record LoadModel(
    PageFrame Frame, string Fixture, PageForm Form, string Now, long? Open, IReadOnlyList<string> Lots, (int Columns, int Rows)? Layout,
    IReadOnlyList<NestRow> Map, bool NeedsLot);
