using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Answers.Still;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>Of a varied ledger: what is refused about an answer whichever verb asks, and what changes nothing.</summary>
internal static class AboutAnswers
{
    private static readonly Caller Who = new("bench", "demo", "127.0.0.1:1", "7");

    /// <summary>A refusal by what the configuration of a client requires.</summary>
    public static Refusal Required(Reason reason, string name) => Refusal.Of(reason, $"this client has to give {name}", (Refusal.Required, name));

    /// <summary>Asks about an answer that are refused, whichever verb asks.</summary>
    public static async Task Refused(TestLedger ledger, long serial, Func<long, AnswerAsk> ask)
    {
        await ledger.Do<RefusalBody>(ask(1)); // serial-unknown
        await ledger.Do<RefusalBody>(ask(serial + 100_000));
        await ledger.Do<RefusalBody>(ask(ledger.Rows().LastOrDefault(r => r.Kind == Kinds.Trial)?.Serial ?? 2)); // a trial, or an adoption
        await ledger.Do<RefusalBody>(ask(serial) with { Fixtures = new HashSet<string>() }); // not-permitted: the answer's fixture
        await ledger.Do<RefusalBody>(ask(serial) with { Caller = new("gantry", null, null), OwnAnswersOnly = true }); // not-permitted: another client's
        await ledger.Do<RefusalBody>(ask(serial) with { Denied = Refusal.Of(Reason.NotPermitted, "no") });
        await ledger.Do<RefusalBody>(ask(serial) with { Denied = Required(Reason.KeyMissing, "tag") });
    }

    /// <summary>The newest answer may no longer be used.</summary>
    public static async Task Superseded(TestLedger ledger, string by)
    {
        var answer = ledger.Rows().Last(r => r.Kind == Kinds.Answer).Serial;
        Assert.Equal(by, (await ledger.Do<RefusalBody>(new StillAsk(Who, answer))).Limits!["by"]);
    }

    public static async Task Trials(TestLedger ledger)
    {
        Assert.True((await ledger.Do<TrialBody>(TestLedger.Locate(0.09) with { IsTrial = true })).First);
        await ledger.Do<TrialBody>(TestLedger.Locate(0.085) with { IsTrial = true, Purpose = Purpose.Place, Decimals = 3, Unit = ServedUnit.Millimetre });
        await ledger.Do<RefusalBody>(TestLedger.Locate(2) with { IsTrial = true });
        await ledger.Do<RefusalBody>(TestLedger.Locate() with { IsTrial = true, Denied = Refusal.Of(Reason.NotPermitted, "no") });
        await ledger.Do<NoteBody>(new NoteAsk(Who, "bed") { By = "setter", Text = "gripper hit pin 2", Entry = 2 });
        await ledger.Do<NoteBody>(new NoteAsk(Who, "") { By = "setter", Text = "lights \"out\", ± 0", Instant = TestLedger.Start });
        await ledger.Do<RefusalBody>(new NoteAsk(Who, "bed") { By = "a", Text = "b", Denied = Refusal.Of(Reason.NotPermitted, "no") });
    }
}
