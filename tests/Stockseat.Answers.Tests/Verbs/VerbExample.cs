using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Tests.Verbs.Nothing;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Verbs;

/// <summary>An ask of a verb that is not refused, on a bench that serves pinbed-1.</summary>
/// <param name="Ask">The ask.</param>
/// <param name="Changes">Whether the ask's entry changes the situation.</param>
/// <param name="IsCarried">Whether a new ledger has to carry the ask's entry, right after it.</param>
internal sealed record VerbExample(Func<Bench, Ask> Ask, bool Changes = true, bool IsCarried = true)
{
    /// <summary>Whether the entry alone says what was asked. An adoption's does not: it was decided on a folder, which is not in the ledger.</summary>
    public bool HoldsItsAsk { get; init; } = true;

    /// <summary>The revision that the bench serves.</summary>
    public static RevisionFile File { get; } = Revisions.Good(limits: """{ "recheck": "1 mm" }""");

    /// <summary>One example of each verb, by name.</summary>
    public static IReadOnlyDictionary<string, VerbExample> All { get; } = new Dictionary<string, VerbExample>
    {
        ["locate"] = new(_ => new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.09 }),
        ["trial"] = new(_ => new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.09, IsTrial = true }, Changes: false, IsCarried: false),
        ["measured"] = new(_ => Bench.Push([0.09, 0.09002])),
        ["emptied"] = new(_ => new EmptiedAsk(Bench.Controller, "pinbed-1")),
        ["confirm"] = new(bench =>
            new ConfirmAsk(Bench.Controller,
                bench.Locate(0.09).Serial) { ReadBack = new Dictionary<string, string> { ["by"] = Read(bench.Entries[^1], "by") } }),
        ["done"] = new(bench =>
        {
            var answer = bench.Locate(0.09);
            bench.Receive(answer);
            return new DoneAsk(Bench.Controller, answer.Serial) { By = "day setter" };
        }),
        ["loaded"] = new(_ => new LoadedAsk(Bench.Controller, "pinbed-1") { First = 1 }),
        ["dropped"] = new(bench =>
        {
            bench.Do(new LoadedAsk(Bench.Controller, "pinbed-1"));
            var next = bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { IsNext = true, DiameterMetres = 0.09 });
            return new DroppedAsk(Bench.Controller, next.Serial) { By = "day setter" };
        }),
        ["grid"] = new(_ => new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.09, IsGrid = true }, Changes: false, IsCarried: false),
        ["note"] = new(_ => new NoteAsk(Bench.Controller, "pinbed-1") { By = "maintenance", Text = "gripper hit pin 2", Entry = 1 }, Changes: false,
            IsCarried: false),
        ["adopt"] = new(_ => new AdoptAsk(Bench.Controller, "pinbed-1", 1) { By = "setter", Why = "again", Folder = Revisions.Folder(File) })
        {
            HoldsItsAsk = false,
        },
        ["hold"] = new(_ => new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "cleaning" }),
        ["release"] = new(Release),
        ["recheck"] = new(_ => new RecheckAsk(Bench.Controller, "pinbed-1")
        {
            By = "setter", Note = "morning", MasterMetres = 0.08, FoundMetres = new(0.01, 0.02, 0.03), RefuseAfterMiss = true,
        }),
        ["describe-lot"] = new(_ =>
            new DescribeLotAsk(Bench.Controller, "A1") { Terms = new() { Nominal = 0.09, Plus = 0.001, Minus = 0 }, Configured = false }),
        ["roll"] = new(_ => new RollAsk(Bench.Controller) { By = "setter", Why = "year's end", Next = "next" }, Changes: false, IsCarried: false),
        ["nothing"] = new(_ => new NothingAsk(Bench.Controller, "pinbed-1"), Changes: false, IsCarried: false),
    };

    private static string Read(EntryBody answer, string name) => FixedPoint.Text(((AnswerBody)answer).TryNumber(name, out var value) ? value : 0);

    private static ReleaseAsk Release(Bench bench)
    {
        bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "cleaning" });
        return new(Bench.Controller, "pinbed-1") { By = "setter", Why = "clean", Of = "setter" };
    }
}
