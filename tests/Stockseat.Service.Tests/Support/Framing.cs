using System.Buffers;
using Stockseat.Service.Lines;

namespace Stockseat.Service.Tests.Support;

/// <summary>One frame as the framer returned it.</summary>
internal readonly record struct Frame(FrameKind Kind, string Line);

/// <summary>Feeds a framer as a connection does: bytes that were not consumed come again with the next piece.</summary>
internal static class Framing
{
    /// <summary>The frames of a stream that arrives in pieces; a foreign frame ends it, as it ends a connection.</summary>
    public static List<Frame> Frames(IEnumerable<byte[]> pieces, bool ended = true)
    {
        var framer = new LineFramer();
        var frames = new List<Frame>();
        byte[] rest = [];
        foreach (var piece in pieces)
        {
            rest = [.. rest, .. piece];
            if (!Drain(framer, frames, ref rest, ended: false))
            {
                return frames;
            }
        }

        if (ended)
        {
            Drain(framer, frames, ref rest, ended: true);
        }

        return frames;
    }

    public static List<Frame> Whole(byte[] bytes, bool ended = true) => Frames([bytes], ended);

    /// <summary>The bytes in pieces that end at these positions.</summary>
    public static IEnumerable<byte[]> Cut(byte[] bytes, IEnumerable<int> at)
    {
        var from = 0;
        foreach (var to in at.Where(i => i > 0 && i < bytes.Length).Distinct().Order().Append(bytes.Length))
        {
            yield return bytes[from..to];
            from = to;
        }
    }

    /// <summary>A sequence of many segments, for code that looks across their borders.</summary>
    public static ReadOnlySequence<byte> Segmented(byte[] bytes, int length)
    {
        Segment? first = null, last = null;
        foreach (var piece in bytes.Chunk(length))
        {
            last = last is null ? first = new(piece, 0) : last.Append(piece);
        }

        return first is null ? ReadOnlySequence<byte>.Empty : new(first, 0, last!, last!.Memory.Length);
    }

    private static bool Drain(LineFramer framer, List<Frame> frames, ref byte[] rest, bool ended)
    {
        var buffer = new ReadOnlySequence<byte>(rest);
        while (true)
        {
            var before = buffer.Length;
            var kind = framer.Next(ref buffer, ended, out var line);
            if (kind == FrameKind.Incomplete)
            {
                rest = buffer.ToArray();
                return true;
            }

            frames.Add(new(kind, line));
            if (kind == FrameKind.Foreign)
            {
                return false;
            }

            Assert.True(buffer.Length < before, $"{kind} consumed nothing");
        }
    }

    private sealed class Segment : ReadOnlySequenceSegment<byte>
    {
        public Segment(byte[] bytes, long index) => (Memory, RunningIndex) = (bytes, index);

        public Segment Append(byte[] bytes)
        {
            var next = new Segment(bytes, RunningIndex + Memory.Length);
            Next = next;
            return next;
        }
    }
}
