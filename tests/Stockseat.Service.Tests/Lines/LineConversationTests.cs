using System.Text;
using NSubstitute;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Verbs;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Service.Lines;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>What a line turns into, with the ledger's side replaced by a substitute.</summary>
public class LineConversationTests
{
    private readonly IAnswerer _answerer = Substitute.For<IAnswerer>();

    public LineConversationTests()
    {
        _answerer.Shown.Returns(LengthUnit.Millimetre);
        _answerer.Doubt(Arg.Any<Ask>(), Arg.Any<Refusal>()).Returns(call => call.Arg<Refusal>());
    }

    public static TheoryData<Reason> OfService => new(Reason.TooBusy, Reason.LedgerUnavailable, Reason.ShuttingDown, Reason.InternalFailure);

    [Theory]
    [MemberData(nameof(OfService))]
    public async Task A_request_that_the_service_can_not_serve_now_is_refused_without_a_number(Reason reason)
    {
        _answerer.Ask(Arg.Any<Ask>()).Returns(AskOutcome.Of(Refusal.Of(reason, "it is so")));

        var reply = await Reply("locate fixture=pinbed-1 diameter=92.40mm tag=7");

        Assert.Equal($"refused tag=7 class=service reason={ReasonInfo.Of(reason).Name} text=\"it is so; {ReasonInfo.Of(reason).Advice}\"\n", reply);
    }

    [Fact]
    public async Task A_locate_asks_for_the_values_in_the_line_and_nothing_else()
    {
        LocateAsk? asked = null;
        _answerer.Ask(Arg.Do<Ask>(a => asked = (LocateAsk)a)).Returns(AskOutcome.Of(Refusal.Of(Reason.TooBusy, "")));

        await Reply("locate nest=2,1 purpose=place diameter=3.638in fixture=pinbed-1 tag=8");

        Assert.Equal(
            new LocateAsk(new Caller("bench", "demo", "127.0.0.1:5", "8"), "pinbed-1") { DiameterMetres = 0.0924052, DiameterSent = "3.638in",
                Purpose = Purpose.Place, Column = 2, Row = 1 },
            asked);
    }

    [Theory]
    [InlineData("locate fixture=pinbed-1 diameter=92.4")]
    [InlineData("measured fixture=pinbed-1 diameter=0mm")]
    [InlineData("confirm serial=x")]
    [InlineData("hello")]
    [InlineData("help")]
    [InlineData("bye")]
    public async Task A_request_that_needs_no_entry_never_reaches_the_ledger(string line)
    {
        await Reply(line);

        await _answerer.DidNotReceiveWithAnyArgs().Ask(default!);
    }

    [Theory]
    [InlineData("measured fixture=pinbed-1 diameter=92.4", "unit-missing")]
    [InlineData("measured fixture=pinbed-1 diameter=92.40mm colour=red", "key-unknown")]
    [InlineData("measured fixture=pinbed-1 diameter=92.40mm fixture=pinbed-1", "key-doubled")]
    [InlineData("emptied fixture=pinbed-1 now", "request-malformed")]
    public async Task An_unreadable_push_leaves_the_measurement_in_doubt(string line, string reason)
    {
        Ask? doubted = null;
        _answerer.Doubt(Arg.Do<Ask>(a => doubted = a), Arg.Any<Refusal>()).Returns(call => UndecidedPush.Say(call.Arg<Ask>(), call.Arg<Refusal>()));

        var reply = await Reply(line);

        Assert.Equal(("pinbed-1", null), (doubted!.Fixture, doubted.Denied));
        Assert.StartsWith($"refused class=request reason={reason} text=\"", reply, StringComparison.Ordinal);
        Assert.Contains("no measurement of ", reply, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("locate fixture=pinbed-1 diameter=92.4")]
    [InlineData("measured diameter=92.40mm")]
    [InlineData("measured fixture=../etc diameter=92.40mm")]
    [InlineData("measures fixture=pinbed-1 diameter=92.40mm")]
    public async Task Another_unreadable_line_leaves_no_doubt(string line)
    {
        await Reply(line);

        _answerer.DidNotReceiveWithAnyArgs().Doubt(default!, default!);
    }

    private async Task<string> Reply(string line)
    {
        var conversation = new LineConversation(_answerer, Bench.Client, new("bench", "demo", "127.0.0.1:5"), TimeProvider.System);
        return Encoding.ASCII.GetString((await conversation.Reply(line).Within($"the reply to {line}")).Bytes.Span);
    }
}
