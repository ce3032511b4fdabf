using System.Text;

namespace Stockseat.Service.Tests.Fuzz;

/// <summary>The checks of the fuzzer can fail.</summary>
public class ReplyGrammarTests
{
    [Theory]
    [InlineData("ok")]
    [InlineData("ok tag=1 serial=5 x=0.1 end")]
    [InlineData("ok fixture=a answers=no reason=measurement-missing text=\"measure it\"")]
    [InlineData("refused class=request reason=unit-missing text=\"add mm\"")]
    [InlineData("refused tag=a class=cell reason=readback-differs text=\"\"")]
    public void A_reply_is_recognised(string reply) => Assert.Null(ReplyGrammar.Fault(reply));

    [Theory]
    [InlineData("")]
    [InlineData("okay")]
    [InlineData("ok  two")]
    [InlineData("ok caf\u00e9")]
    [InlineData("ok x\r")]
    [InlineData("refused class=request text=\"a\"")]
    [InlineData("refused class=other reason=unit-missing text=\"a\"")]
    [InlineData("refused class=request reason=no-such text=\"a\"")]
    [InlineData("refused class=service reason=internal-failure text=\"a\"")]
    [InlineData("refused class=request reason=unit-missing text=\"a\"b\"")]
    [InlineData("refused class=request reason=unit-missing text=\"a\u001b\"")]
    [InlineData("refused class=request reason=unit-missing text=\"'bx=0.5' is no number\"")]
    [InlineData("refused class=request reason=unit-missing text=\"x=1\"")]
    public void A_line_that_is_not_a_reply_is_found(string reply) => Assert.NotNull(ReplyGrammar.Fault(reply));

    [Theory]
    [InlineData("hello\r", false)]
    [InlineData("hello\rhello", true)]
    [InlineData("hello\0", true)]
    [InlineData("\u0016\u0003", true)]
    [InlineData("GET / HTTP/1.1", true)]
    [InlineData("GET lost", false)]
    [InlineData("locate \u00e9", false)]
    public void Another_protocol_is_recognised(string line, bool foreign) => Assert.Equal(foreign, BadLines.IsForeign(Encoding.Latin1.GetBytes(line)));
}
