using System.Text;
using CsCheck;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Fuzz;

/// <summary>Whatever is sent over a socket gets one reply a line, in order, and the conversation continues.</summary>
public class LineFuzzTests
{
    /// <summary>With 1 here, a million lines are sent.</summary>
    private const string Long = "STOCKSEAT_LONG";

    private const int LinesEach = 200;

    private static readonly int Conversations = Environment.GetEnvironmentVariable(Long) == "1" ? 5000 : 100;

    private static readonly Gen<(byte[] Line, bool Cr)[]> Lines = Gen.Select(BadLines.Any, Gen.Bool).Array[LinesEach];

    [Fact]
    public async Task Every_line_gets_one_reply_and_the_next_is_answered()
    {
        await using var bench = await Bench.Start();

        // A million lines that are all answered make entries: one thread, so that a failure names the lines that made it.
        var lines = 0L;
        await Gen.Select(Lines, Gen.Int[1, 700].Array[1, 20]).SampleAsync(
            async (sent, cuts) =>
            {
                await Converse(bench, sent, cuts);
                lines += sent.Length;
            },
            iter: Conversations, threads: 1);

        Assert.Equal((long)Conversations * LinesEach, lines);
        using var good = await bench.Line();
        Assert.StartsWith("ok tag=after ", await good.Ask("locate fixture=pinbed-1 diameter=92.4mm tag=after"), StringComparison.Ordinal);
    }

    /// <summary>
    /// Sends all lines, each followed by a help with a tag of its own, in pieces that end anywhere. A connection that was closed for a reason is opened
    /// again.
    /// </summary>
    private static async Task Converse(Bench bench, (byte[] Line, bool Cr)[] sent, int[] cuts)
    {
        for (var from = 0; from < sent.Length;)
        {
            using var line = await bench.Line();
            await line.Ask("hello"); // The very first line has to be a request, or the connection closes.
            var rest = sent[from..];
            var foreign = Array.FindIndex(rest, l => BadLines.IsForeign(Bytes(l)));
            var until = foreign < 0 ? rest.Length : foreign + 1;
            var stream = rest[..until].SelectMany((l, i) => (byte[])[.. Bytes(l), (byte)'\n', .. Encoding.ASCII.GetBytes($"help tag=h{i}\n")]).ToArray();
            var sending = SendInPieces(line, stream, cuts);
            var done = await ReadReplies(line, rest[..until], endsForeign: foreign >= 0);
            await sending;
            from += done;
        }

        static byte[] Bytes((byte[] Line, bool Cr) l) => l.Cr ? [.. l.Line, (byte)'\r'] : l.Line;
    }

    /// <summary>Reads the replies to these lines; returns how many lines were dealt with.</summary>
    private static async Task<int> ReadReplies(LineClient line, (byte[] Line, bool Cr)[] sent, bool endsForeign)
    {
        for (var i = 0; i < sent.Length; i++)
        {
            var what = $"line {i}: {Encoding.Latin1.GetString(sent[i].Line)}";
            var last = endsForeign && i == sent.Length - 1;
            var reply = await Next(line);
            if (reply is null && last)
            {
                return sent.Length; // The refusal was lost with the reset: bytes after it were not read.
            }

            Assert.True(reply is not null, $"no reply to {what}");
            Assert.True(ReplyGrammar.Fault(reply) is null, $"{ReplyGrammar.Fault(reply)}: {reply}, in reply to {what}");
            if (last)
            {
                Assert.StartsWith("refused class=request reason=request-malformed ", reply, StringComparison.Ordinal);
                Assert.Null(await Next(line));
                return sent.Length;
            }

            if (BadLines.IsGoodbye(reply))
            {
                Assert.Null(await Next(line));
                return i + 1;
            }

            var help = await Next(line);
            Assert.True(help?.StartsWith($"ok tag=h{i} verbs=", StringComparison.Ordinal) == true, $"'{help}' came after the reply to {what}");
        }

        return sent.Length;
    }

    private static async Task SendInPieces(LineClient line, byte[] stream, int[] cuts)
    {
        try
        {
            for (var (at, i) = (0, 0); at < stream.Length; i++)
            {
                var to = Math.Min(stream.Length, at + cuts[i % cuts.Length]);
                await line.Send(stream[at..to]);
                at = to;
            }
        }
        catch (System.Net.Sockets.SocketException)
        {
            // The other side closed; the reader of replies judges whether it was right to.
        }
    }

    private static async Task<string?> Next(LineClient line)
    {
        try
        {
            return await line.Read();
        }
        catch (IOException)
        {
            return null;
        }
    }
}
