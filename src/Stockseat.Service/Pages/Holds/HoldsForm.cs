using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Pages.Board;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages.Holds;

/// <summary>What the pages of holds, of releases and of loads have in common.</summary>
public sealed class HoldsForm(IAnswerer answerer, Display display)
{
    /// <summary>The field of who.</summary>
    public const string By = "by";

    /// <summary>The field of why.</summary>
    public const string Why = "why";

    /// <summary>The status of a form that is shown again before anything was asked.</summary>
    public const int NotAsked = StatusCodes.Status409Conflict;

    /// <summary>The state of a fixture for which the client may ask with a verb; or the refusal.</summary>
    /// <param name="client">The client.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="verb">The verb.</param>
    /// <param name="needed">The roles of which one is needed.</param>
    public (FixtureState? State, Refusal? Refusal) Find(Client client, string fixture, string verb, Roles needed = Roles.Calibrate)
    {
        if (client.Lacks(needed, verb) is { } lacking)
        {
            return (null, lacking);
        }

        if (!NameText.MayBeFixture(fixture))
        {
            return (null, Refusal.Of(Reason.FixtureUnknown, $"'{Refusal.Shown(fixture)}' is not the name of a fixture"));
        }

        return !client.MaySee(fixture) ? (null, client.Foreign(fixture))
            : answerer.Situation.Find(fixture) is { } state ? (state, null) : (null, answerer.Unknown(fixture));
    }

    /// <summary>A hold as it is shown.</summary>
    public BoardHold Shown(StandingHold hold) => new(hold.By, hold.Why, display.Times.Minute(hold.At), hold.Serial);

    /// <summary>Who and why; or what is wrong with them.</summary>
    public static (string By, string Why, IReadOnlyList<string> Faults) Read(SentForm form)
    {
        var (by, why) = (SaidText.Read(form[By]), SaidText.Read(form[Why]));
        List<string> faults = [];
        if (by is null)
        {
            faults.Add(SaidText.Fault("Who you are", form[By]));
        }

        if (why is null)
        {
            faults.Add(SaidText.Fault("Why", form[Why]));
        }

        return (by ?? "", why ?? "", faults);
    }

    /// <summary>Asks, and goes on to the board; a refusal shows the form again.</summary>
    /// <param name="request">The request.</param>
    /// <param name="form">What was sent.</param>
    /// <param name="ask">The ask.</param>
    /// <param name="again">Shows the form again.</param>
    public async Task<PageReply> Send(PageRequest request, SentForm form, Ask ask, Func<PageForm, int, PageReply> again)
    {
        var outcome = await answerer.Ask(request.Client.Permit(ask));
        if (outcome.Refusal is not { } refusal)
        {
            return PageReply.See(FormattableString.Invariant($"/?{BoardPage.DoneKey}={outcome.Entry.Serial}#fixture-{outcome.Entry.Fixture}"));
        }

        // A refusal of the service itself may come after the entry was written: sent again, the form is still the same one.
        var isOpen = refusal.Info.Class == ReasonClass.Service;
        return again(request.Again(form, [refusal.In(display.Length)], isOpen), PageReply.StatusOf(refusal.Reason));
    }
}
