using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>The situation found by the indexes equals the situation made by all entries, one after the other.</summary>
public sealed class SituationReaderTests
{
    [Fact]
    public async Task The_situation_after_each_entry_equals_the_one_made_by_all_entries_up_to_it()
    {
        using var ledger = await Varied.Make();
        var checkedSerials = 0;
        foreach (var path in ClosedLedgers.Of(ledger.Folder).Select(f => f.Path).Append(ledger.File))
        {
            using var connection = LedgerFile.OpenClosed(path);
            var (applied, revisions) = (Situation.Empty, new AdoptedRevisions());
            foreach (var row in LedgerQueries.After(connection, 0, int.MaxValue))
            {
                applied = applied.Apply(row.ReadBody()!, revisions.Read);

                var read = SituationReader.Read(connection, row.Serial, revisions.Read);

                Assert.Equal((row.Serial, applied.Text()), (row.Serial, read.Text()));
                Assert.Equal(applied.Begins, read.Begins);
                checkedSerials++;
            }

            Assert.Equal(applied.Text(), SituationReader.Read(connection).Text());
            Assert.Equal(Situation.Empty.Text(), SituationReader.Read(connection, 0, revisions.Read).Text());
        }

        Assert.True(checkedSerials > 150, $"{checkedSerials}");
    }

    [Fact]
    public async Task A_confirmed_place_is_kept_across_a_start_however_often_picks_were_confirmed_since()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var place = await ledger.Do<AnswerBody>(Place());
        var stands = await ledger.Do<ConfirmationBody>(TestLedger.Received(place));
        await ledger.Do<DoneBody>(TestLedger.Done(place.Serial));
        var pick = await ledger.Do<AnswerBody>(TestLedger.Locate());
        for (var i = 0; i < 205; i++)
        {
            Assert.Equal(stands.Serial, (await ledger.Do<ConfirmationBody>(TestLedger.Received(pick))).Other);
            await ledger.Do<DoneBody>(TestLedger.Done(pick.Serial));
        }

        await ledger.Again();

        Assert.False((await ledger.Do<AnswerBody>(Place())).First);
        await ledger.Roll();
        Assert.Equal(stands.Serial, (await ledger.Do<ConfirmationBody>(TestLedger.Received(pick))).Other);
        await ledger.Again();
        Assert.False((await ledger.Do<AnswerBody>(Place())).First);
        Assert.False((await ledger.Do<AnswerBody>(TestLedger.Locate())).First);
    }

    [Fact]
    public async Task Entries_that_do_not_name_the_other_confirmation_are_searched()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var place = await ledger.Do<AnswerBody>(Place());
        await ledger.Do<ConfirmationBody>(TestLedger.Confirm(place.Serial));
        var pick = await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.Do<ConfirmationBody>(TestLedger.Confirm(pick.Serial));
        Assert.Equal(2, ledger.Sql("UPDATE entry SET body = json_remove(body, '$.other') WHERE body LIKE '%\"other\"%'"));
        using var reader = LedgerFile.OpenReader(ledger.Folder);

        var bed = SituationReader.Read(reader).Find("bed")!;

        Assert.Equal((4L, 6L), (bed.ConfirmedPlace!.Serial, bed.ConfirmedPick!.Serial));
    }

    [Fact]
    public async Task A_push_refused_after_a_roll_voids_the_carried_measurement_also_after_a_start()
    {
        var time = new SteppedTime();
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.09));
        await ledger.Roll();
        await ledger.Do<RefusalBody>(TestLedger.Measured(0.09) with { ReadingsMetres = [0.09, 0.0905], Terms = new(null, 1e-5, TimeSpan.FromHours(8)) });

        await ledger.Again();

        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(TestLedger.Locate(null))).Reason);
    }

    [Fact]
    public async Task A_confirmation_from_before_the_revision_in_force_hides_no_other_at_a_start()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var before = await ledger.Do<AnswerBody>(TestLedger.Locate());
        ledger.Fixture = new("bed", [TestLedger.Revision(1), TestLedger.Revision(2)], []);
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(new("bench", null, null), "bed", 2) { By = "a", Why = "b", Folder = ledger.Fixture });
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.CarryOut(answer);
        await ledger.Do<ConfirmationBody>(TestLedger.Received(before));

        await ledger.Again();

        Assert.False((await ledger.Do<AnswerBody>(TestLedger.Locate())).First);
    }

    private static LocateAsk Place() => TestLedger.Locate() with { Purpose = Purpose.Place };
}
