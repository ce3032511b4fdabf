using System.Buffers;
using System.Text;
using CsCheck;
using Stockseat.Service.Lines;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

public sealed class LineFramerTests
{
    private const string Stream = "hello\r\nlocate fixture=pinbed-1 diameter=92.40mm\n\nstatus\r\n\r\nbye\n";

    public static TheoryData<string> ForeignStreams =>
        ["\0", "hel\0lo\n", "\r", "hello\rstatus\n", "\r\r\n", "GET / HTTP/1.1\r\n", "POST /x HTTP/1.0\n", "get / HTTP/1.1\r\n", "Host: a\r\n", "x-Y!:\n",
            "PRI * HTTP/2.0\r\n", "\u0016\u0003\u0001\u0002"];

    public static TheoryData<string> UnprintableStreams =>
        ["diameter=\u0669\u0662mm\n", "a\tb\n", "\u001b[31m\n", "\u007f\r\n", "é\n", "\u0001\n", "status\u0016\n"];

    [Fact]
    public void Lines_end_with_LF_or_CR_LF() =>
        Assert.Equal(
            [Line("hello"), Line("locate fixture=pinbed-1 diameter=92.40mm"), Line(""), Line("status"), Line(""), Line("bye")],
            Framing.Whole(Bytes(Stream)));

    [Fact]
    public void A_stream_cut_at_any_byte_gives_the_same_frames()
    {
        var bytes = Bytes(Stream);
        var whole = Framing.Whole(bytes);

        Assert.All(Enumerable.Range(1, bytes.Length - 1), at => Assert.Equal(whole, Framing.Frames([bytes[..at], bytes[at..]])));
        Assert.Equal(whole, Framing.Frames(bytes.Select(b => new[] { b })));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    public void A_buffer_of_many_segments_gives_the_same_frames(int length)
    {
        var buffer = Framing.Segmented(Bytes(Stream), length);
        var framer = new LineFramer();
        var frames = new List<Frame>();
        while (framer.Next(ref buffer, ended: true, out var line) is var kind && kind != FrameKind.Incomplete)
        {
            frames.Add(new(kind, line));
        }

        Assert.Equal(Framing.Whole(Bytes(Stream)), frames);
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void A_line_of_512_bytes_is_accepted(string end)
    {
        var line = new string('a', 512);

        Assert.Equal([Line(line), Line("bye")], Framing.Whole(Bytes(line + end + "bye\n")));
        Assert.Equal([Line(line), Line("bye")], Framing.Frames(Bytes(line + end + "bye\n").Select(b => new[] { b })));
    }

    [Theory]
    [InlineData(513, "\n")]
    [InlineData(513, "\r\n")]
    [InlineData(514, "\n")]
    [InlineData(10_000, "\r\n")]
    public void A_longer_line_is_refused_once_and_skipped(int length, string end)
    {
        var bytes = Bytes(new string('a', length) + end + "bye\n");

        Assert.Equal([Of(FrameKind.TooLong), Line("bye")], Framing.Whole(bytes));
        Assert.Equal([Of(FrameKind.TooLong), Line("bye")], Framing.Frames(bytes.Select(b => new[] { b })));
        Assert.Equal([Of(FrameKind.TooLong), Line("bye")], Framing.Frames(bytes.Chunk(300)));
    }

    [Fact]
    public void A_long_line_is_refused_before_its_end_has_arrived() =>
        Assert.Equal([Of(FrameKind.TooLong)], Framing.Whole(Bytes(new string('a', 513)), ended: false));

    [Fact]
    public void A_line_of_512_bytes_waits_for_its_end() => Assert.Empty(Framing.Whole(Bytes(new string('a', 512) + "\r"), ended: false));

    [Theory]
    [InlineData('\0')]
    [InlineData('\r')]
    [InlineData('\u0016')]
    public void Bytes_beyond_the_longest_line_are_skipped_however_they_arrive(char within)
    {
        var bytes = Bytes(new string('a', 600) + within + "b\nbye\n");

        Assert.Equal([Of(FrameKind.TooLong), Line("bye")], Framing.Frames(bytes.Chunk(513)));
        Assert.Equal([Of(FrameKind.TooLong), Line("bye")], Framing.Whole(bytes));
    }

    [Fact]
    public void A_long_line_at_the_end_of_the_stream_is_refused_once() => Assert.Equal([Of(FrameKind.TooLong)], Framing.Whole(Bytes(new string('a', 600))));

    [Fact]
    public void A_line_without_an_end_is_cut_off() => Assert.Equal([Line("hello"), Of(FrameKind.CutOff)], Framing.Whole(Bytes("hello\nloc")));

    [Fact]
    public void A_stream_that_ends_after_a_line_has_no_more_frames() => Assert.Equal([Line("hello")], Framing.Whole(Bytes("hello\n")));

    [Theory]
    [MemberData(nameof(ForeignStreams))]
    public void Bytes_of_another_protocol_are_foreign(string text)
    {
        Assert.Equal([Line("hello"), Of(FrameKind.Foreign)], Framing.Whole(Bytes("hello\n" + text)));
        Assert.Equal([Line("hello"), Of(FrameKind.Foreign)], Framing.Frames(Bytes("hello\n" + text).Select(b => new[] { b })));
    }

    [Theory]
    [MemberData(nameof(UnprintableStreams))]
    public void Other_bytes_are_unprintable_and_the_next_line_is_read(string text) =>
        Assert.Equal([Of(FrameKind.Unprintable), Line("bye")], Framing.Whole(Bytes(text + "bye\n")));

    [Fact]
    public void Every_byte_of_printable_ASCII_is_accepted_and_no_other()
    {
        byte[] own = [(byte)'\n', (byte)'\r', 0, 0x16];
        foreach (var b in Enumerable.Range(0, 256).Select(i => (byte)i).Except(own))
        {
            var expected = b is >= 0x20 and <= 0x7E ? FrameKind.Line : FrameKind.Unprintable;
            Assert.Equal(expected, Framing.Whole([b, (byte)'\n'])[0].Kind);
        }
    }

    [Fact]
    public void A_method_of_HTTP_alone_is_a_line_unless_the_stream_begins_with_it()
    {
        Assert.Equal([Line("hello"), Line("GET lost")], Framing.Whole(Bytes("hello\nGET lost\n")));
        Assert.Equal([Of(FrameKind.Foreign)], Framing.Whole(Bytes("GET lost\n")));
        Assert.Equal([Of(FrameKind.Foreign)], Framing.Whole(Bytes("GET "), ended: false));
        Assert.Empty(Framing.Whole(Bytes("GET"), ended: false));
    }

    [Theory]
    [InlineData("locate fixture=a:b")]
    [InlineData("tag=a: b")]
    [InlineData(" Host: a")]
    [InlineData(":")]
    [InlineData("GET HTTP")]
    [InlineData("hello HTTP/1.1 tag=1")]
    public void A_line_that_only_looks_like_HTTP_is_a_line(string text) => Assert.Equal([Line("hello"), Line(text)], Framing.Whole(Bytes($"hello\n{text}\n")));

    [Fact]
    public void A_long_line_of_HTTP_is_foreign_before_its_end_has_arrived()
    {
        Assert.Equal([Line("hello"), Of(FrameKind.Foreign)], Framing.Whole(Bytes("hello\nPOST /" + new string('a', 507)), ended: false));
        Assert.Equal([Line("hello"), Of(FrameKind.Foreign)], Framing.Whole(Bytes("hello\nCookie: " + new string('a', 505)), ended: false));
    }

    [Fact]
    public void Random_bytes_in_random_pieces_give_the_same_frames_as_in_one_piece()
    {
        var some = Gen.Frequency(
            (8, Gen.Char[' ', '~'].Select(c => new[] { (byte)c })),
            (3, Gen.Const(() => "\n"u8.ToArray())),
            (2, Gen.Const(() => "\r\n"u8.ToArray())),
            (2, Gen.Int[1, 700].Select(n => Bytes(new string('z', n)))),
            (1, Gen.Byte.Array[0, 4]));
        Gen.Select(some.Array[0, 40], Gen.Int[0, 3000].Array[0, 30]).Sample(
            (runs, cuts) =>
            {
                var bytes = runs.SelectMany(r => r).ToArray();
                return Framing.Whole(bytes).SequenceEqual(Framing.Frames(Framing.Cut(bytes, cuts)));
            },
            iter: 20_000, threads: 1);
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static Frame Line(string text) => new(FrameKind.Line, text);

    private static Frame Of(FrameKind kind) => new(kind, "");
}
