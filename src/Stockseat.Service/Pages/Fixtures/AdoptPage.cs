using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Service.Answering;
using Stockseat.Service.Pages.Holds;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>Puts a revision into force: /adopt/FIXTURE/NUMBER. What is adopted is what the page showed, or nothing.</summary>
internal sealed class AdoptPage(IAnswerer answerer, HoldsForm holds, Display display) : IPage
{
    /// <summary>The fields of what the page showed.</summary>
    public const string Digest = "digest", Expects = "expects";

    public string Name => "adopt";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(
        OnRevision(request, (state, revision) => Show(request, state, revision, request.NewForm())));

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (request.Path is not [var fixture, var text] || !int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return PageReply.NoPage;
        }

        var (by, why, faults) = HoldsForm.Read(form);
        if (!int.TryParse(form[Expects], NumberStyles.None, CultureInfo.InvariantCulture, out var expects)
            || !DigestPrefix.TryRead(form[Digest], out var digest))
        {
            faults = [.. faults, "The form does not say which file and which revision in force it showed; look at both once more."];
        }
        else if (faults.Count == 0)
        {
            return await Send(request, form, new(request.Caller with { Request = form.Request }, fixture, number)
            {
                By = by, Why = why, Digest = digest, Expects = expects, Folder = null,
            });
        }

        return OnRevision(
            request, (state, revision) => Show(request, state, revision, request.Again(form, faults, keep: true), StatusCodes.Status400BadRequest));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnRevision(request, (state, revision) => Show(request, state, revision, request.Again(form, [said], keep: true), HoldsForm.NotAsked)));

    private async Task<PageReply> Send(PageRequest request, SentForm form, AdoptAsk ask)
    {
        var permitted = request.Client.Permit(ask);
        if (permitted is AdoptAsk { Denied: null } adopt)
        {
            var folder = await answerer.ReadFolder(ask.Fixture, request.Gone); // for who may, and for nobody else
            folder?.Find(ask.Number)?.Reading.Revision?.Prepare();
            permitted = adopt with { Folder = folder };
        }

        var outcome = await answerer.Ask(permitted);
        return outcome.Refusal is not { } refusal
            ? PageReply.See($"/fixture/{ask.Fixture}")
            : OnRevision(request, (state, revision) => Show(
                request, state, revision, request.Again(form, [refusal.In(display.Length)], keep: refusal.Info.Class == ReasonClass.Service),
                PageReply.StatusOf(refusal.Reason)), refusal);
    }

    private PageReply OnRevision(PageRequest request, Func<FixtureState, Revision, PageReply> show, Refusal? instead = null)
    {
        if (request.Path is not [var fixture, var text])
        {
            return PageReply.NoPage;
        }

        var (state, refusal) = holds.Find(request.Client, fixture, AdoptAsk.VerbName);
        if (state is null)
        {
            return PageReply.Refused(refusal!);
        }

        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && state.Folder?.Find(number)?.Reading.Revision is { } revision ? show(state, revision)
            : instead is not null ? PageReply.Refused(instead)
            : PageReply.Problem(
                StatusCodes.Status404NotFound, "There is no such revision to adopt",
                $"The folder of {fixture} has no file of this revision without faults; see the fixture's page.");
    }

    private PageReply Show(PageRequest request, FixtureState state, Revision revision, PageForm form, int status = StatusCodes.Status200OK)
    {
        var statement = BaseStatement.Of(revision);
        var advice = RevisionFindings.Of(new(revision, []), null, null, null, display.Length).Select(f => $"{f.Text}.");
        return PageReply.Show(
            AdoptSlice.Create(new(
                request.Frame($"Adopt revision {revision.Number} of {state.Fixture}"), state.Fixture, revision.Number, revision.Digest,
                state.InForce?.Number ?? 0, RevisionWords.Statement(statement, display.Length), [.. StatementText.Nests(statement)],
                RevisionWords.Changes(state, revision.Number), [.. advice], form)), status);
    }
}
