using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;

namespace Stockseat.Answers.Tests.Replaying;

public sealed class RecomputingTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Good());

    [Fact]
    public void An_answer_is_rebuilt_from_its_body_whether_its_diameter_was_stated_or_measured()
    {
        Again(Asked(0.09) with { NominalMetres = 0.09, WithinMetres = 0.001, Decimals = 3, Unit = ServedUnit.Micrometre });
        _bench.Measure(0.0901, 0.0902);
        Again(Asked(null));
        Again(Asked(0.085) with { Purpose = Purpose.Place });
    }

    [Fact]
    public void The_lot_in_an_answer_need_not_have_been_asked_for()
    {
        _bench.Do(Bench.Push([0.09], lot: "A1", terms: new() { Nominal = 0.09, Plus = 0.001, Minus = 0.001 }));

        var free = (AnswerBody)Again(Asked(null)).Recorded;
        var asked = (AnswerBody)Again(Asked(null) with { Lot = "A1", LotTerms = new() }).Recorded;

        Assert.Equal(("A1", null), (free.Lot, free.LotTerms));
        Assert.Equal(("A1", new LotTerms()), (asked.Lot, asked.LotTerms));
    }

    [Theory]
    [InlineData(Reason.NotPermitted, true)]
    [InlineData(Reason.NestUnknown, false)]
    [InlineData(Reason.FixtureUnknown, true)]
    [InlineData(Reason.DiameterAboveEnvelope, false)]
    [InlineData(Reason.MeasurementMissing, false)]
    public void Inputs_that_the_ledger_does_not_have_are_taken_from_the_outcome(Reason reason, bool given)
    {
        var (recorded, again) = Again(reason switch
        {
            Reason.NotPermitted => Asked(0.09) with { Denied = Refusal.Of(Reason.NotPermitted, "no") },
            Reason.NestUnknown => Asked(0.09) with { Column = 9 },
            Reason.FixtureUnknown => Asked(0.09, "nowhere"),
            Reason.DiameterAboveEnvelope => Asked(2),
            _ => Asked(null),
        });

        Assert.Equal((reason, given), (((RefusalBody)recorded).Refusal.Reason, again.Given));
    }

    [Fact]
    public void Who_was_allowed_to_confirm_is_taken_from_the_outcome()
    {
        var answer = _bench.Locate(0.09);
        var stranger = new Caller("gantry", null, null);

        var (refused, again) = Again(new ConfirmAsk(stranger, answer.Serial) { OwnAnswersOnly = true });
        Assert.Equal((Reason.NotPermitted, true), (((RefusalBody)refused).Refusal.Reason, again.Given));
        var (foreign, _) = Again(new ConfirmAsk(stranger, answer.Serial) { OwnAnswersOnly = true, Fixtures = new HashSet<string>() });
        Assert.Contains("is of fixture pinbed-1", ((RefusalBody)foreign).Text, StringComparison.Ordinal);
        // As versions before this rule decided.
        Assert.IsType<ConfirmationBody>(Again(new ConfirmAsk(stranger, answer.Serial)).Recorded);

        // A forged refusal to the very client that was served does not come out the same.
        var forged = (RefusalBody)refused with { Client = answer.Client };
        Assert.IsType<ConfirmationBody>(Recomputing.Again(forged, forged.Serial, _bench.Situation, false, Find, _ => null).Body);
    }

    [Fact]
    public void The_digest_that_was_asked_for_is_in_the_refusal_and_is_computed_again()
    {
        var folder = Revisions.Folder(Revisions.Good(1), Revisions.Good(2));
        var ask = new AdoptAsk(Bench.Controller, "pinbed-1", 2) { By = "setter", Why = "moved", Folder = folder, Digest = new string('a', 12) };

        Ask[] asks =
        [
            ask, ask with { Denied = Refusal.Of(Reason.NotPermitted, "no") }, ask with { Number = 9 }, ask with { Fixture = "nowhere", Folder = null },
        ];
        foreach (var refused in asks)
        {
            Assert.Equal(ask.Digest, ((RefusalBody)Again(refused).Recorded).AdoptsDigest);
        }
    }

    [Fact]
    public void A_refusal_as_unknown_of_something_known_to_the_ledger_does_not_come_out_the_same()
    {
        var recorded = (RefusalBody)_bench.Do(Asked(0.09, "nowhere")) with { Fixture = "pinbed-1" };

        var then = SituationThen.Of(recorded, _bench.Situation, out var given);
        var again = Recomputing.Again(recorded, recorded.Serial, then, given, None, _ => null);

        Assert.Equal("fixture-withdrawn", Assert.IsType<RefusalBody>(again.Body).Reason);
    }

    [Fact]
    public void A_body_without_its_inputs_says_so()
    {
        var recorded = (RefusalBody)_bench.Do(Asked(2)) with { Nest = null };

        var again = Recomputing.Again(recorded, recorded.Serial, _bench.Situation, false, None, _ => null);

        Assert.Equal((null, "its body does not hold all of its inputs"), (again.Body, again.Fault));
    }

    [Fact]
    public void A_revision_is_read_once_and_only_if_it_reads_back_to_its_digest()
    {
        var revisions = new AdoptedRevisions();
        var adopted = Assert.Single(_bench.Entries.OfType<RevisionAdoptedBody>());

        Assert.Same(revisions.Read(adopted), revisions.Read(adopted with { Serial = 9 }));
        Assert.Null(revisions.Read(adopted with { Digest = new string('a', 64) }));
    }

    [Fact]
    public void The_inputs_of_an_answer_are_taken_from_its_body()
    {
        _bench.Do(Bench.Push([0.09], lot: "A1", terms: new() { Nominal = 0.09, Plus = 0.001, Minus = 0.001 }));
        var answer = (AnswerBody)_bench.Do(Asked(null) with { Lot = "A1", LotTerms = new() { Nominal = 0.09, Plus = 0.001, Minus = 0.001 },
            NominalMetres = 0.09, WithinMetres = 0.001, Unit = ServedUnit.Millimetre });

        var inputs = AnswerInputs.Read(Bench.Bytes(answer))!;

        Assert.Equal(
            answer with { Serial = 0, Revision = null, Digest = null, Age = null, From = null, Uncertainty = null, First = false, StandOff = 0,
                Position = inputs.Position, Orientation = inputs.Orientation, ShiftBase = inputs.ShiftBase, ShiftOrigin = inputs.ShiftOrigin,
                Nest = inputs.Nest },
            inputs);
        Assert.Equal(answer.Nest, inputs.Nest);
        Assert.Null(AnswerInputs.Read(Bench.Bytes(answer with { Version = 99 })));
        Assert.Null(AnswerInputs.Read("[]"u8));
    }

    private (EntryBody Recorded, Recomputed Again) Again(Ask ask)
    {
        var before = new AdoptedRevisions();
        var situation = _bench.Entries.Aggregate(Situation.Empty, (s, e) => s.Apply(BodyJson.Read(e.Kind, Bench.Bytes(e))!, before.Read));
        var recorded = _bench.Do(ask);
        var read = BodyJson.Read(recorded.Kind, Bench.Bytes(recorded))!;
        var then = SituationThen.Of(read, situation, out var given);
        var again = Recomputing.Again(read, recorded.Serial, then, given, Find, before.Read);
        Assert.Null(again.Fault);
        Assert.Equal(Bench.Bytes(recorded), Bench.Bytes(again.Body!));
        return (recorded, again);
    }

    private static LocateAsk Asked(double? diameter, string fixture = "pinbed-1") => new(Bench.Controller, fixture) { DiameterMetres = diameter };

    private AnswerBody? Find(long serial, out bool isAway)
    {
        isAway = false;
        return _bench.Entries.Find(e => e.Serial == serial) as AnswerBody;
    }

    private static AnswerBody? None(long serial, out bool isAway)
    {
        isAway = false;
        return null;
    }
}
