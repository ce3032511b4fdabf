using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Verbs;

/// <summary>When the configuration does not let a client ask, the ask gets its entry and changes nothing.</summary>
public sealed class DeniedTests
{
    private static readonly Refusal No = Refusal.Of(Reason.NotPermitted, "it may not");

    public static TheoryData<string> Asks => ["locate", "measured", "emptied", "confirm", "adopt"];

    [Theory]
    [MemberData(nameof(Asks))]
    public void A_denied_ask_is_refused_with_its_inputs_and_changes_nothing(string verb)
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        bench.Measure(0.0924);
        var answer = bench.Locate();
        var before = bench.Situation;
        Ask ask = verb switch
        {
            "locate" => new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.09, Column = 1, Denied = No },
            "measured" => Bench.Push([0.09]) with { Denied = No },
            "emptied" => new EmptiedAsk(Bench.Controller, "pinbed-1") { Denied = No },
            "confirm" => new ConfirmAsk(Bench.Controller, answer.Serial) { Denied = No },
            _ => new AdoptAsk(Bench.Controller, "pinbed-1", 3) { By = "setter", Why = "test", Folder = before.Find("pinbed-1")!.Folder, Denied = No },
        };

        var refusal = bench.Refused(Reason.NotPermitted, ask);

        Assert.Equal(No.Text, refusal.Text);
        Assert.Equal(("bench", "17"), (refusal.Client, refusal.Tag));
        Assert.Same(before, bench.Situation);
        Assert.True(verb switch
        {
            "locate" => refusal is { Diameter: 0.09, Nest: [1, 0], Purpose: "pick", Fixture: "pinbed-1" },
            "measured" => refusal is { Readings: [0.09], Gauge: "bench-2", Fixture: "pinbed-1" },
            "confirm" => refusal.Confirms == answer.Serial,
            "adopt" => refusal.Adopts == 3,
            _ => refusal.Fixture == "pinbed-1",
        });
        bench.Restart();
        Assert.NotNull(bench.Locate().Measurement);
    }

    [Fact]
    public void An_answer_of_another_client_s_fixture_is_not_confirmed()
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        var answer = bench.Locate(0.0924);

        var refusal = bench.Refused(Reason.NotPermitted, new ConfirmAsk(Bench.Controller, answer.Serial) { Fixtures = new HashSet<string> { "rollers-3" } });

        Assert.Equal(("pinbed-1", answer.Serial), (refusal.Fixture, refusal.Confirms));
        Assert.IsType<ConfirmationBody>(bench.Do(new ConfirmAsk(Bench.Controller, answer.Serial) { Fixtures = new HashSet<string> { "pinbed-1" } }));
    }
}
