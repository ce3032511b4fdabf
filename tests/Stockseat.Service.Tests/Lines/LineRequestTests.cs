using System.Text;
using CsCheck;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Lines;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

public class LineRequestTests : IDisposable
{
    private readonly CultureScope _culture;

    public LineRequestTests()
        : this("en-US")
    {
    }

    protected LineRequestTests(string culture) => _culture = new(culture);

    public static TheoryData<string, Reason, string> Faulty => new()
    {
        { "", Reason.RequestMalformed, "empty" },
        { "   ", Reason.RequestMalformed, "empty" },
        { "locate fixture", Reason.RequestMalformed, "'fixture' is not key=value" },
        { "locate fixture=a stray nest=0,0", Reason.RequestMalformed, "'stray' is not key=value" },
        { "locate =a", Reason.RequestMalformed, "is not key=value" },
        { "locate fixture=\"a", Reason.RequestMalformed, "not closed" },
        { "locate fixture=\"", Reason.RequestMalformed, "not closed" },
        { "locate fixture=\"a\"b", Reason.RequestMalformed, "right after the closing quote" },
        { "locate fixture=a\"b", Reason.RequestMalformed, "quotes go around the complete value" },
        { "locate fixture=a fixture=b", Reason.KeyDoubled, "fixture appears twice" },
        { "locate fixture=a fixture=a", Reason.KeyDoubled, "fixture appears twice" },
        { "locate tag=1 tag=2", Reason.KeyDoubled, "tag appears twice" },
    };

    [Fact]
    public void A_line_is_a_verb_and_values_in_any_order()
    {
        var request = LineRequest.Parse("  locate  nest=2,1 fixture=pinbed-1   tag=17 ");

        Assert.Null(request.Fault);
        Assert.Equal("locate", request.Verb);
        Assert.Equal(["nest", "fixture", "tag"], request.Keys);
        Assert.Equal(("2,1", "pinbed-1", "17"), (request["nest"], request["fixture"], request.Tag));
        Assert.Null(request["diameter"]);
    }

    [Theory]
    [InlineData("a=\"x y\"", "x y")]
    [InlineData("a=\"\"", "")]
    [InlineData("a=", "")]
    [InlineData("a=b=c", "b=c")]
    [InlineData("a=\"b=c d=e\"", "b=c d=e")]
    public void A_value_is_a_word_or_a_quoted_text(string pair, string expected)
    {
        var request = LineRequest.Parse("v " + pair + " last=1");

        Assert.Null(request.Fault);
        Assert.Equal((expected, "1"), (request["a"], request["last"]));
    }

    [Theory]
    [InlineData("LOCATE", "LOCATE")]
    [InlineData("Locate Fixture=a", "Locate")]
    public void Case_is_kept(string line, string verb)
    {
        var request = LineRequest.Parse(line);

        Assert.Equal(verb, request.Verb);
        Assert.Null(request["fixture"]);
    }

    [Theory]
    [MemberData(nameof(Faulty))]
    public void A_fault_has_its_reason_and_a_description(string line, Reason reason, string said)
    {
        var fault = LineRequest.Parse(line).Fault;

        Assert.NotNull(fault);
        Assert.Equal(reason, fault.Reason);
        Assert.Contains(said, fault.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("locate stray tag=17")]
    [InlineData("locate tag=17 stray")]
    [InlineData("locate tag=17 a=1 a=2")]
    [InlineData("locate tag=17 a=\"open")]
    [InlineData("locate a=\"b\"c tag=17")]
    public void The_tag_of_a_faulty_line_is_kept(string line)
    {
        var request = LineRequest.Parse(line);

        Assert.NotNull(request.Fault);
        Assert.Equal("17", request.Tag);
    }

    [Theory]
    [InlineData("v tag=")]
    [InlineData("v tag=\"a b\"")]
    [InlineData("v tag=a;b")]
    [InlineData("v tag=12345678901234567890123456789012345678901")]
    public void A_tag_that_can_not_be_echoed_is_ignored(string line) => Assert.Null(LineRequest.Parse(line).Tag);

    [Fact]
    public void The_first_fault_counts() => Assert.Equal(Reason.KeyDoubled, LineRequest.Parse("v a=1 a=2 stray").Fault!.Reason);

    [Fact]
    public void A_refusal_of_any_text_is_one_printable_line_with_two_quotes() => Gen.Select(Gen.String, Gen.Enum<Reason>().Where(r => r != Reason.None)).Sample(
        (text, reason) =>
        {
            var reply = Text(LineReply.Refused("t", Refusal.Of(reason, text)));
            Assert.StartsWith($"refused tag=t class=", reply, StringComparison.Ordinal);
            Assert.EndsWith("\"\n", reply, StringComparison.Ordinal);
            Assert.Equal(2, reply.Count(c => c == '"'));
            Assert.DoesNotContain(reply[..^1], c => c is < ' ' or > '~');
        },
        iter: 5_000, threads: 1);

    [Fact]
    public void Any_line_is_read_into_values_or_a_printable_refusal() => Gen.String[Gen.Char[' ', '~'], 0, 512].Sample(
        line =>
        {
            var request = LineRequest.Parse(line);
            if (request.Fault is not { } fault)
            {
                return;
            }

            var reply = Text(LineReply.Refused(request.Tag, fault));
            Assert.Equal(2, reply.Count(c => c == '"'));
            Assert.DoesNotContain(reply[..^1], c => c is < ' ' or > '~');
        },
        iter: 5_000, threads: 1);

    [Fact]
    public void Numbers_have_a_point_and_no_grouping_and_no_negative_zero()
    {
        var reply = NamedReply.Ok(null).Number("a", 1234567.5).Number("b", -0.0000001).Number("c", -0.25, 2).Number("d", 0.5, 0).Pair("e", -1234567L).End();

        Assert.Equal("ok a=1234567.500000 b=0.000000 c=-0.25 d=0 e=-1234567\n", Text(reply));
    }

    [Fact]
    public void The_class_of_a_refusal_is_plain_lower_case() =>
        Assert.StartsWith("refused class=service reason=internal-failure text=\"", Text(LineReply.Refused(null, Refusal.Of(Reason.InternalFailure, "x"))),
            StringComparison.Ordinal);

    public void Dispose()
    {
        _culture.Dispose();
        GC.SuppressFinalize(this);
    }

    private static string Text(LineReply reply) => Encoding.Latin1.GetString(reply.Bytes.Span);
}

public sealed class LineRequestInGermanTests() : LineRequestTests("de-DE");

public sealed class LineRequestInTurkishTests() : LineRequestTests("tr-TR");
