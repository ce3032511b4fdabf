using System.Buffers;
using System.Text.Json;
using BenchmarkDotNet.Attributes;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Verbs;

namespace Stockseat.Benchmarks;

/// <summary>The body of an answer's entry, written to a reused buffer.</summary>
[MemoryDiagnoser]
public class BodyBenchmarks
{
    private readonly AnswerBody _answer = Bed.Answer();
    private readonly object _same;
    private readonly ArrayBufferWriter<byte> _buffer = new(4096);
    private readonly Utf8JsonWriter _json;

    public BodyBenchmarks()
    {
        _json = new(_buffer);
        var a = _answer;
        _same = new
        {
            v = a.Version, serial = a.Serial, at = a.At, kind = a.Kind, fixture = a.Fixture, revision = a.Revision, digest = a.Digest,
            client = a.Client, cell = a.Cell, address = a.Address, tag = a.Tag, purpose = a.Purpose, nest = a.Nest, diameter = a.Diameter,
            first = a.First, standOff = a.StandOff, position = a.Position, orientation = a.Orientation, shiftBase = a.ShiftBase,
            shiftOrigin = a.ShiftOrigin, decimals = a.Decimals,
        };
    }

    [Benchmark(Baseline = true)]
    public int Anonymous()
    {
        Begin();
        JsonSerializer.Serialize(_json, _same, _same.GetType());
        return End();
    }

    [Benchmark]
    public int Body()
    {
        Begin();
        BodyJson.Write(_json, _answer);
        return End();
    }

    private void Begin()
    {
        _buffer.ResetWrittenCount();
        _json.Reset(_buffer);
    }

    private int End()
    {
        _json.Flush();
        return _buffer.WrittenCount;
    }
}
