using System.Security.Cryptography;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Kept;

/// <summary>
/// A ledger that was made once, when bodies and tables had version 1, and is never made again: every later version has to read it, verify it and continue
/// writing to it.
/// A new kind or version of entries gets a kept ledger of its own: with <c>STOCKSEAT_KEEP_LEDGER=FILE</c> the last test here writes one.
/// </summary>
public sealed class KeptLedgerTests
{
    private const int Entries = 20;
    private static readonly string Kept = Path.Combine(AppContext.BaseDirectory, "Kept", "ledger-v1.db");

    /// <summary>All kinds that version 1 had except rolled-over, in the order in which they first appear.</summary>
    private static readonly string[] All =
    [
        Kinds.ServiceStarted, Kinds.RevisionAdopted, Kinds.LotDescribed, Kinds.Measurement, Kinds.Answer, Kinds.Confirmation, Kinds.Refusal, Kinds.Held,
        Kinds.Released, Kinds.Recheck, Kinds.Emptied, Kinds.ClockStep, Kinds.Seal, Kinds.UncleanStop, Kinds.RevisionRejected, Kinds.ServiceStopped,
    ];

    [Fact]
    public void The_kept_ledger_is_intact_to_the_last_digit()
    {
        using var ledger = Copy();

        var verified = ledger.Verify();

        Assert.Empty(verified.Faults);
        Assert.Equal((true, Entries, "ledger-1"), (verified.Whole, (int)verified.Entries, verified.Ledger));
        Assert.Equal(Head, verified.HeadHash);
        Assert.Equal(All, ledger.Rows().Select(r => r.Kind).Distinct());
    }

    [Fact]
    public void Each_body_is_read_and_written_again_to_the_same_bytes()
    {
        using var ledger = Copy();

        Assert.All(ledger.Rows(), row => Assert.Equal(row.Body, Text(row.ReadBody()!)));
    }

    [Fact]
    public void The_kept_decisions_come_out_the_same_in_a_replay()
    {
        using var ledger = Copy();

        var replayed = ledger.Replay();

        Assert.Equal((0, 1, Entries, 3, 1, 9),
            (replayed.ExitCode, (int)replayed.First, (int)replayed.Last, (int)replayed.Answers, (int)replayed.Refusals, (int)replayed.Others));
        Assert.Equal(replayed.Answers + replayed.Refusals + replayed.Others, replayed.Same);
    }

    [Fact]
    public async Task The_kept_ledger_opens_with_its_last_situation_and_can_be_continued()
    {
        using var ledger = Copy(new SteppedTime(days: 1));
        ledger.Fixture = new("bed", [Support.Ledger.Revision(1, Limits)], []);
        await ledger.Begin();
        var bed = ledger.Writer.Situation.Find("bed")!;
        var confirmed = Assert.Single(ledger.Rows(), r => r.Kind == Kinds.Confirmation);

        Assert.Equal((1, 2L, confirmed.Serial), (bed.InForce!.Number, bed.AdoptedBy, bed.ConfirmedPick!.Serial));
        Assert.Equal((null, 0.0924), (bed.Measurement, ledger.Writer.Situation.Lots["A1"].Terms.Nominal));
        Assert.Equal("maintenance", Assert.Single(bed.Holds.Values).By);
        Assert.NotNull(ledger.Writer.Situation.StepBack);
        Assert.Equal("fixture-held", (await ledger.Do<RefusalBody>(Support.Ledger.Locate())).Reason);
        await ledger.Do<ReleasedBody>(new ReleaseAsk(new("bench", "demo", null), "bed") { By = "setter", Why = "done", Of = "maintenance" });
        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        Assert.False(answer.First);
        var served = (AnswerBody)ledger.Rows().First(r => r.Kind == Kinds.Answer).ReadBody()!;
        Assert.Equal((served.Position[1], served.ShiftBase[1], served.Digest), (answer.Position[1], answer.ShiftBase[1], answer.Digest));
        Assert.Equal(served.Serial, (await ledger.Do<ConfirmationBody>(Support.Ledger.Confirm(served.Serial))).Confirms);
        Assert.Equal(served.Serial, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "kept-1"))).Serial);
        await ledger.End();
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_confirmation_of_another_client_s_answer_replays_beside_a_newer_one_that_is_refused()
    {
        using var ledger = Copy(new SteppedTime(days: 1));
        await ledger.Begin();
        var served = ledger.Rows().First(r => r.Kind == Kinds.Answer).Serial;
        var stranger = new Caller("gantry", "hall-2", null);

        await ledger.Do<ConfirmationBody>(new ConfirmAsk(stranger, served)); // as every version before did
        Assert.Equal("not-permitted", (await ledger.Do<RefusalBody>(new ConfirmAsk(stranger, served) { OwnAnswersOnly = true })).Reason);
        await ledger.Do<ConfirmationBody>(new ConfirmAsk(new("gantry", "demo", null), served) { OwnAnswersOnly = true });

        var replayed = ledger.Replay();
        Assert.Equal((0, 1L), (replayed.ExitCode, replayed.Given));
    }

    [Fact]
    public async Task A_ledger_made_now_in_the_same_way_has_all_kinds()
    {
        var time = new SteppedTime();
        using var ledger = new Support.Ledger(time) { Fixture = new("bed", [Support.Ledger.Revision(1, Limits)], []), Tables = 1 };
        await Fill(ledger, time);

        Assert.Equal(All, ledger.Rows().Select(r => r.Kind).Distinct());
        Assert.Equal(Entries, ledger.Rows().Count);
        if (Environment.GetEnvironmentVariable("STOCKSEAT_KEEP_LEDGER") is { Length: > 0 } file)
        {
            File.Copy(ledger.File, file);
        }
    }

    private const string Head = "e3ba658d339c0247fc1031ba6a0b1928fe714b66118c26cbd42042baba90944e";
    internal const string Limits = """, "limits": { "recheck": "0.5 mm" }""";

    internal static async Task Fill(Support.Ledger ledger, SteppedTime time)
    {
        await ledger.Begin();
        var who = new Caller("bench", "demo", "127.0.0.1:1", "7");
        await ledger.Do<LotDescribedBody>(new DescribeLotAsk(who, "A1") { Terms = new() { Nominal = 0.0924, Tolerance = "h11", Plus = 0, Minus = 0.00022 },
            Configured = false });
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.0923, lot: "A1"));
        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "kept-1"));
        await ledger.Do<AnswerBody>(Support.Ledger.Locate(null, lot: "A1"));
        await ledger.Do<ConfirmationBody>(Support.Ledger.Confirm(answer.Serial, by: Answers.Entries.FixedPoint.Text(answer.ShiftBase[1])));
        await ledger.Do<RefusalBody>(Support.Ledger.Locate(0.01));
        await ledger.Do<HeldBody>(new HoldAsk(who, "bed") { By = "setter", Why = "pins \"cleaned\", ± 0" });
        await ledger.Do<ReleasedBody>(new ReleaseAsk(who, "bed") { By = "setter", Why = "done", Of = "setter" });
        await ledger.Do<RecheckBody>(new RecheckAsk(who, "bed") { By = "setter", Note = "n", MasterMetres = 0.08, WithinMetres = 0.000002,
            FoundMetres = new(0, 0.0001, 0) });
        await ledger.Do<EmptiedBody>(new EmptiedAsk(who, "bed"));
        time.Set(TimeSpan.FromMinutes(-5));
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        if (ledger.SnapshotEvery is not null)
        {
            await Support.Ledger.Soon(ledger.Writer.Snapshot());
        }

        await Seal(ledger, time);
        await ledger.Kill();
        ledger.Fixture = new("bed", [Support.Ledger.Revision(1, Limits), new(2, "bed/r0002.json", new string('a', 64),
            RevisionReader.Read("{"u8.ToArray(), "bed/r0002.json", "bed", 2))], []);
        ledger.Unclean = true;
        await ledger.Begin();
        await ledger.Do<HeldBody>(new HoldAsk(who, "bed") { By = "maintenance", Why = "oil" });
        await ledger.End();
    }

    private static async Task Seal(Support.Ledger ledger, SteppedTime time)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var file = Path.Combine(Directory.CreateTempSubdirectory("stockseat-key-").FullName, "seal.pem");
        await File.WriteAllTextAsync(file, key.ExportPkcs8PrivateKeyPem());
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        using var seal = SealKey.Load(file, ledger.Folder);
        var head = ledger.Rows()[^1];
        await Support.Ledger.Soon(ledger.Writer.Append(_ => [seal.Seal("ledger-1", head.Serial, head.Hash, time.GetUtcNow(), null)]));
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }

    private static Support.Ledger Copy(TimeProvider? time = null)
    {
        var ledger = new Support.Ledger(time);
        File.Copy(Kept, ledger.File);
        return ledger;
    }

    internal static string Text(EntryBody body)
    {
        using var stream = new MemoryStream();
        using (var writer = new System.Text.Json.Utf8JsonWriter(stream))
        {
            BodyJson.Write(writer, body);
        }

        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }
}
