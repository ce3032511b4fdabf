using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Reviews;

/// <summary>Somebody's own words about an entry or an instant: /note. Reviews show them.</summary>
internal sealed class NotePage(IAnswerer answerer, EntryLook entries, Display display) : IPage
{
    /// <summary>The fields of the form.</summary>
    public const string About = "about", Fixture = "fixture", By = "by", Text = "text";

    public string Name => "note";

    public Task<PageReply> Get(PageRequest request)
    {
        var about = request.Query(About) ?? "";
        var typed = new Dictionary<string, string>(StringComparer.Ordinal) { [About] = about, [Fixture] = request.Query(Fixture) ?? FixtureOf(about) };
        return Task.FromResult(Allowed(request) ?? Show(request, request.NewForm() with { Typed = typed }));
    }

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (Allowed(request) is { } denied)
        {
            return denied;
        }

        var (ask, faults) = Read(request, form);
        if (ask is null)
        {
            return Show(request, request.Again(form, faults, keep: true), StatusCodes.Status400BadRequest);
        }

        var outcome = await answerer.Ask(request.Client.Permit(ask));
        if (outcome.Refusal is not { } refusal)
        {
            return PageReply.See(FormattableString.Invariant($"/entry/{outcome.Entry.Serial}"));
        }

        // A refusal of the service itself may come after the entry was written: sent again, the form is still the same one.
        var isOpen = refusal.Info.Class == ReasonClass.Service;
        return Show(request, request.Again(form, [refusal.In(display.Length)], isOpen), PageReply.StatusOf(refusal.Reason));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        Allowed(request) ?? Show(request, request.Again(form, [said], keep: true), StatusCodes.Status409Conflict));

    private static PageReply? Allowed(PageRequest request) => request.Path.Count > 0 ? PageReply.NoPage
        : request.Client.Lacks(Roles.Review, NoteAsk.VerbName) is { } lacking ? PageReply.Refused(lacking) : null;

    private (NoteAsk? Ask, IReadOnlyList<string> Faults) Read(PageRequest request, SentForm form)
    {
        var faults = new List<string>();
        string Said(string field, string what)
        {
            if (SaidText.Read(form[field]) is { } said)
            {
                return said;
            }

            faults.Add(SaidText.Fault(what, form[field]));
            return "";
        }

        var (text, by) = (Said(Text, "What happened"), Said(By, "Who you are"));
        var (about, fixture) = (form[About].Trim(), form[Fixture].Trim());
        var (serial, instant) = about.Length == 0 ? (null, null) : ReviewForm.AtOf(about, display.Zone, faults);
        if (serial > answerer.Serial)
        {
            faults.Add($"There is no entry {PrintedNumbers.Whole(serial.Value)}; the newest is {PrintedNumbers.Whole(answerer.Serial)}.");
        }

        if (fixture.Length > 0 && !NameText.MayBeFixture(fixture))
        {
            faults.Add($"'{Refusal.Shown(fixture)}' is not the name of a fixture.");
        }

        return faults.Count > 0 ? (null, faults)
            : (new(request.Caller with { Request = form.Request }, fixture) { By = by, Text = text, Entry = serial, Instant = instant }, []);
    }

    /// <summary>The fixture of the entry that a note is about; "" when it has none.</summary>
    private string FixtureOf(string about) => long.TryParse(about, out var serial) ? entries.Find(serial)?.Fixture ?? "" : "";

    private PageReply Show(PageRequest request, PageForm form, int status = StatusCodes.Status200OK) =>
        PageReply.Show(NoteSlice.Create(new(request.Frame("Write a note"), form, display.Times.Name)), status);
}
