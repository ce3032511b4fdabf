using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Confirm;

public sealed class ConfirmTests
{
    private static readonly string[] Names = ["x", "y", "z", "qw", "qx", "qy", "qz", "bx", "by", "bz", "ox", "oy", "oz", "diameter"];
    private readonly Bench _bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Fact]
    public void A_confirmation_carries_what_was_confirmed()
    {
        var answer = _bench.Locate(0.0924);

        var body = Assert.IsType<ConfirmationBody>(_bench.Receive(answer, ("by", "0.006308")));

        Assert.Equal((answer.Serial, "pick", "pinbed-1", 3, answer.Digest), (body.Confirms, body.Purpose, body.Fixture, body.Revision, body.Digest));
        Assert.Equal(answer.ShiftBase, body.ShiftBase);
        Assert.Equal("0.006308", body.ReadBack!["by"]);
        Assert.Null(Assert.IsType<ConfirmationBody>(_bench.Confirm(answer.Serial)).ReadBack);
    }

    [Fact]
    public void Every_number_that_was_served_can_be_read_back()
    {
        var answer = _bench.Locate(0.0924);
        Assert.All(Names, name =>
        {
            Assert.True(answer.TryNumber(name, out var value));
            Assert.IsType<ConfirmationBody>(_bench.Receive(answer, (name, FixedPoint.Text(value))));
            Assert.Equal("readback-differs", Assert.IsType<RefusalBody>(_bench.Receive(answer, (name, FixedPoint.Text(value + 1e-6)))).Reason);
        });
    }

    [Theory]
    [InlineData("bench", "demo", true)]
    [InlineData("bench", null, true)] // the same client, under whatever name its cell has now
    [InlineData("bench", "other", true)]
    [InlineData("gantry", "demo", true)]
    [InlineData("gantry", "other", false)]
    [InlineData("gantry", null, false)]
    [InlineData(null, null, false)]
    public void Only_the_client_that_was_served_or_another_client_of_its_cell_confirms(string? client, string? cell, bool may)
    {
        var answer = _bench.Locate(0.0924);
        var ask = new ConfirmAsk(new(client, cell, null), answer.Serial) { OwnAnswersOnly = true };

        var body = _bench.Do(ask);

        Assert.Equal(may ? Kinds.Confirmation : Kinds.Refusal, body.Kind);
        if (body is RefusalBody refusal)
        {
            Assert.Equal((Reason.NotPermitted, answer.Serial, "pinbed-1", "bench"),
                (refusal.Refusal.Reason, refusal.Confirms, refusal.Fixture, refusal.Limits!["served_to"]));
            Assert.Contains("confirm it as client bench, or give both clients the same Cell", refusal.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Clients_without_a_cell_do_not_share_a_cell()
    {
        var answer = Assert.IsType<AnswerBody>(_bench.Do(new LocateAsk(new("bench", null, null), "pinbed-1") { DiameterMetres = 0.0924 }));

        _bench.Refused(Reason.NotPermitted, new ConfirmAsk(new("gantry", null, null), answer.Serial) { OwnAnswersOnly = true });
        Assert.IsType<ConfirmationBody>(_bench.Do(new ConfirmAsk(new("bench", null, null), answer.Serial) { OwnAnswersOnly = true }));
    }

    [Theory]
    [InlineData(99)]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(1)] // the adoption
    public void A_serial_that_is_not_an_answer_is_unknown(long serial)
    {
        var body = _bench.Refused(Reason.SerialUnknown, new ConfirmAsk(Bench.Controller, serial));

        Assert.Equal((serial, (string?)null), (body.Confirms, body.Fixture));
    }

    [Theory]
    [InlineData("by", "0.0063080000", true)]
    [InlineData("by", "-0.006308", false)]
    [InlineData("by", "0.006309", false)]
    [InlineData("y", "-0.198692", true)]
    [InlineData("y", "0.198692", false)]
    [InlineData("ox", "-0.000000", true)]
    [InlineData("ox", "0", true)]
    public void Numbers_are_compared_as_numbers(string name, string text, bool same)
    {
        var body = _bench.Receive(_bench.Locate(0.0924), (name, text));

        Assert.Equal(same ? Kinds.Confirmation : Kinds.Refusal, body.Kind);
        Assert.Equal(same ? null : "readback-differs", (body as RefusalBody)?.Reason);
    }

    [Fact]
    public void A_difference_shows_what_was_served_and_what_was_read()
    {
        var answer = _bench.Locate(0.0924);

        var body = _bench.Refused(
            Reason.ReadbackDiffers, new ConfirmAsk(Bench.Controller, answer.Serial) { ReadBack = new Dictionary<string, string> { ["by"] = "6.308" } });

        Assert.Equal(("by", "0.006308", "6.308"), (body.Limits!["name"], body.Limits["served"], body.Limits["read"]));
        Assert.Equal((answer.Serial, "6.308", "pinbed-1", 3), (body.Confirms, body.ReadBack!["by"], body.Fixture, body.Revision));
    }

    [Fact]
    public void One_wrong_number_among_right_ones_is_found()
    {
        var answer = _bench.Locate(0.0924);

        Assert.Equal("readback-differs", Assert.IsType<RefusalBody>(_bench.Confirm(answer.Serial, ("bx", "-0.004731"), ("by", "0.006308"),
            ("bz", "0.1"))).Reason);
    }

    [Theory]
    [InlineData(ServedUnit.Micrometre, 0, "by", "6308", null)]
    [InlineData(ServedUnit.Micrometre, 0, "by", "6309", "readback-differs")]
    [InlineData(ServedUnit.Micrometre, 0, "by", "0.006308", "readback-differs")]
    [InlineData(ServedUnit.Micrometre, 0, "diameter", "92400", null)]
    [InlineData(ServedUnit.Micrometre, 0, "x", "999999999999", "readback-differs")]
    [InlineData(ServedUnit.Millimetre, 4, "y", "-198.6924", null)]
    [InlineData(ServedUnit.Millimetre, 4, "y", "-198.6925", "readback-differs")]
    [InlineData(ServedUnit.Millimetre, 4, "qx", "-0.9391", null)]
    [InlineData(ServedUnit.Millimetre, 4, "qx", "-939.1486", "readback-differs")]
    [InlineData(ServedUnit.Metre, 4, "by", "0.0063", null)]
    [InlineData(ServedUnit.Metre, 4, "by", "0.0064", "readback-differs")]
    public void Numbers_are_compared_in_the_unit_and_at_the_decimals_served(ServedUnit unit, int decimals, string name, string text, string? reason)
    {
        var answer = Assert.IsType<AnswerBody>(
            _bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.0924, Unit = unit, Decimals = decimals }));

        Assert.Equal(reason, (_bench.Receive(answer, (name, text)) as RefusalBody)?.Reason);
        Assert.Equal((unit == ServedUnit.Metre ? null : unit.Name(), decimals), (answer.Unit, answer.Decimals));
    }

    [Fact]
    public void A_difference_is_shown_in_the_unit_served()
    {
        var answer = _bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.0924, Unit = ServedUnit.Micrometre, Decimals = 0 });

        Assert.Equal("6308", Assert.IsType<RefusalBody>(_bench.Confirm(answer.Serial, ("by", "8"))).Limits!["served"]);
    }

    [Theory]
    [InlineData("8.213mm")]
    [InlineData("8,213")]
    [InlineData("8.213e-3")]
    [InlineData("")]
    public void A_malformed_number_is_refused(string text) =>
        Assert.Equal("value-malformed", Assert.IsType<RefusalBody>(_bench.Confirm(_bench.Locate(0.0924).Serial, ("by", text))).Reason);

    [Theory]
    [InlineData("vy")]
    [InlineData("BY")]
    [InlineData("serial")]
    public void A_name_that_was_not_served_is_refused(string name) =>
        Assert.Equal("key-unknown", Assert.IsType<RefusalBody>(_bench.Confirm(_bench.Locate(0.0924).Serial, (name, "0.1"))).Reason);

    [Theory]
    [InlineData("by", "bx bz")]
    [InlineData("bx by", "bz")]
    [InlineData("bx by ox", "bz")]
    [InlineData("x", "y z")]
    [InlineData("x y qw diameter", "z")]
    [InlineData("diameter", "bx by bz")]
    [InlineData("bx by bz", null)]
    [InlineData("x y z", null)]
    [InlineData("bx by bz ox", null)]
    public void Every_component_that_is_not_zero_of_one_triple_is_read_back(string names, string? missing)
    {
        var answer = _bench.Locate(0.0924);

        var body = _bench.Confirm(answer.Serial, [.. names.Split(' ').Select(n => (n, Bench.Served(answer, n)))]);

        Assert.Equal((missing is null ? null : "readback-missing", missing), ((body as RefusalBody)?.Reason, (body as RefusalBody)?.Limits?["missing"]));
        Assert.Equal(missing is null ? ConfirmationBody.Full : null, (body as ConfirmationBody)?.Numbers);
    }

    [Fact]
    public void A_component_that_was_served_as_zero_may_be_left_out()
    {
        var bench = Bench.Serving(Revisions.Good(1)); // its shift has no part out of the plan
        var answer = bench.Locate(0.09);
        Assert.Equal("0.000000", Bench.Served(answer, "bz"));

        Assert.IsType<ConfirmationBody>(bench.Confirm(answer.Serial, ("bx", Bench.Served(answer, "bx")), ("by", Bench.Served(answer, "by"))));
    }

    [Fact]
    public void One_that_reads_nothing_back_says_so_and_proves_nothing()
    {
        var answer = _bench.Locate(0.0924);

        Assert.Equal(ConfirmationBody.None, Assert.IsType<ConfirmationBody>(_bench.Confirm(answer.Serial)).Numbers);
    }

    [Fact]
    public void By_the_rules_of_version_1_one_number_was_enough_and_a_bare_confirmation_ended_first()
    {
        var bench = Bench.ServingBy(1, Revisions.Demo("pinbed-1/r0003.json"));
        var answer = bench.Locate(0.0924);

        Assert.Null(Assert.IsType<ConfirmationBody>(bench.Confirm(answer.Serial, ("by", "0.006308"))).Numbers);
        Assert.Equal((true, false), (answer.First, bench.Locate(0.0924).First));
    }
}
