using System.Buffers;
using System.Globalization;
using System.Text;
using BenchmarkDotNet.Attributes;
using Stockseat.Answers.Locate;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Benchmarks;

/// <summary>An answer as a line. Goal: at most 200 ns, without garbage.</summary>
[MemoryDiagnoser]
public class ReplyBenchmarks
{
    private readonly AnswerBody _a = Bed.Answer();
    private readonly ArrayBufferWriter<byte> _output = new(4096);

    [Benchmark(Baseline = true)]
    public byte[] Interpolated()
    {
        var (p, q, b, o) = (_a.Position, _a.Orientation, _a.ShiftBase, _a.ShiftOrigin);
        return Encoding.ASCII.GetBytes(string.Create(
            CultureInfo.InvariantCulture,
            $"ok tag={_a.Tag} serial={_a.Serial} fixture={_a.Fixture} revision={_a.Revision} purpose={_a.Purpose} nest={_a.Nest[0]},{_a.Nest[1]} "
                + $"diameter={_a.Diameter:F6} unit=m first={(_a.First ? "yes" : "no")} x={p[0]:F6} y={p[1]:F6} z={p[2]:F6} qw={q[0]:F6} qx={q[1]:F6} "
                + $"qy={q[2]:F6} qz={q[3]:F6} bx={b[0]:F6} by={b[1]:F6} bz={b[2]:F6} ox={o[0]:F6} oy={o[1]:F6} oz={o[2]:F6} end\n"));
    }

    [Benchmark]
    public int Reply()
    {
        _output.ResetWrittenCount();
        LineReply.Ok(Form.Named, _a.Tag, _a).WriteTo(_output);
        return _output.WrittenCount;
    }
}
