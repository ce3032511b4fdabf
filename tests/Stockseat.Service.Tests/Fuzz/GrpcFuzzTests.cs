using CsCheck;
using Google.Rpc;
using Grpc.Core;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;
using Purpose = Stockseat.V1.Purpose;

namespace Stockseat.Service.Tests.Fuzz;

/// <summary>Whatever is in the fields of a call, it is served, or refused for a reason of the list; the ledger is intact afterwards.</summary>
public class GrpcFuzzTests
{
    private const int Calls = 4000;

    private static readonly HashSet<string> Reasons = [.. Enum.GetValues<Reason>().Where(r => r is not (Reason.None or Reason.InternalFailure))
        .Select(r => ReasonInfo.Of(r).GrpcName)];

    private static readonly string[] Words =
    [
        "", "pinbed-1", "rollers-3", "veerack-2", "nowhere-9", "A1077", "bench-2", "mm", "in", "r-1", "by", "x", BedPick.By, "-1", "1e9", "NaN",
        "../../etc/passwd", "' OR 1=1 --", "\0", "\u001b[2J", "\u202e", "\u2028",
        "a\r\nb", "{0}", "{{", "\"", "%00", "\ud83d\ude00", new('a', 40), new('a', 41), new('9', 60), new('\u00e9', 400), new(' ', 401), "\u0085",
    ];

    // A string with half a surrogate pair can't be sent.
    private static readonly Gen<string> Text = Gen.Frequency(
        (4, Gen.Int[0, Words.Length - 1].Select(i => Words[i])),
        (1, Gen.Char[' ', '~'].Array[0, 45].Select(c => new string(c))),
        (1, Gen.String[Gen.Char.Where(c => !char.IsSurrogate(c)), 0, 60]));

    /// <summary>Mostly empty: a call whose every field is bad is refused for the first one.</summary>
    private static readonly Gen<string> Field = Gen.Frequency((8, Gen.Const("")), (1, Text));

    private static readonly Gen<string> Fixture = Gen.Frequency((8, Gen.Const("pinbed-1")), (1, Text));

    private static readonly Gen<double> Number = Gen.Frequency(
        (8, Gen.Double[0.06, 0.1]),
        (2, Of(double.NaN, double.PositiveInfinity, double.NegativeInfinity, 0, -0.0, double.Epsilon, double.MaxValue, -1, 10, 10.000001, 1e-300, 0.0924)),
        (1, Gen.Double));

    private static readonly Gen<int> Whole = Gen.Frequency((9, Gen.Int[0, 3]), (1, Of(int.MinValue, int.MaxValue)), (1, Gen.Int));

    private static readonly Gen<long> Serial = Gen.Frequency((3, Gen.Long[0, 500]), (1, Of(long.MinValue, long.MaxValue, -1)), (1, Gen.Long));

    private static readonly Gen<LocateRequest> Locates = Gen.Select(
        Gen.Select(Fixture, Field, Field, Field), Gen.Select(Number, Number, Number), Gen.Select(Whole, Whole, Whole), Gen.Int[0, 7],
        (t, d, n, has) =>
        {
            var request = new LocateRequest { Fixture = t.Item1, Lot = t.Item2, Tag = t.Item3, RequestId = t.Item4, Column = n.Item1, Row = n.Item2,
                Purpose = (Purpose)n.Item3 };
            _ = (has & 1) != 0 ? request.DiameterMetres = d.Item1 : 0;
            _ = (has & 2) != 0 ? request.NominalMetres = d.Item2 : 0;
            _ = (has & 4) != 0 ? request.WithinMetres = d.Item3 : 0;
            return request;
        });

    private static readonly Gen<RecordRequest> Records = Gen.Select(
        Gen.Select(Fixture, Field, Field), Gen.Select(Field, Field, Field), Number.Array[0, 4],
        (a, b, readings) =>
            new RecordRequest { Fixture = a.Item1, Gauge = a.Item2, Lot = a.Item3, Tag = b.Item1, RequestId = b.Item2, Unit = b.Item3,
            ReadingsMetres = { readings } });

    private static readonly Gen<ConfirmRequest> Confirms = Gen.Select(
        Serial, Gen.Select(Text, Text).Array[0, 2], Field, Field,
        (serial, read, tag, id) =>
            new ConfirmRequest { Serial = serial, Tag = tag, RequestId = id,
            ReadBack = { read.DistinctBy(p => p.Item1).ToDictionary(p => p.Item1, p => p.Item2) } });

    private static readonly Gen<EmptiedRequest> Empties = Gen.Select(Fixture, Field, Field,
        (f, t, id) => new EmptiedRequest { Fixture = f, Tag = t, RequestId = id });

    private static readonly Gen<AdoptRequest> Adopts = Gen.Select(
        Fixture, Whole, Text, Text, Field, Gen.OneOf(Text, Gen.Const("0123456789ab"), Gen.Const("none")), (f, n, by, why, id, digest) =>
        {
            var request = new AdoptRequest { Fixture = f, Revision = n, By = by, Why = why, RequestId = id, Digest = digest };
            if (digest == "none")
            {
                request.ClearDigest();
            }

            return request;
        });

    [Fact]
    public async Task Every_call_is_served_or_refused_for_a_reason_of_the_list()
    {
        await using var bench = await Bench.Start();
        var lookup = new LookupService.LookupServiceClient(bench.Channel);
        var gauge = new GaugeService.GaugeServiceClient(bench.Channel);
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);
        var any = Gen.OneOf<(string Request, Func<Task> Call)>(
            Locates.Select(r => (r.ToString(), (Func<Task>)(() => lookup.LocateAsync(r).ResponseAsync))),
            Records.Select(r => (r.ToString(), (Func<Task>)(() => gauge.RecordAsync(r).ResponseAsync))),
            Confirms.Select(r => (r.ToString(), (Func<Task>)(() => lookup.ConfirmAsync(r).ResponseAsync))),
            Empties.Select(r => (r.ToString(), (Func<Task>)(() => gauge.EmptiedAsync(r).ResponseAsync))),
            Adopts.Select(r => (r.ToString(), (Func<Task>)(() => fixtures.AdoptAsync(r).ResponseAsync))));
        var (served, refused) = (0, new HashSet<string>());

        await any.SampleAsync(
            async one =>
            {
                try
                {
                    await one.Call();
                    served++;
                }
                catch (RpcException e)
                {
                    var info = e.GetRpcStatus()?.GetDetail<ErrorInfo>();
                    Assert.True(info is { Domain: "stockseat" } && Reasons.Contains(info.Reason)
                        && (int)e.StatusCode == ReasonInfo.Of(ReasonInfo.Find(Kebab(info.Reason))).GrpcStatus, $"{e.Status} {info} to {one.Request}");
                    refused.Add(info.Reason);
                }
            },
            iter: Calls, threads: 1, print: one => one.Request);

        // A fuzzer whose calls are all refused at once finds nothing.
        Assert.True(served > Calls / 50, $"only {served} calls were served");
        Assert.True(refused.Count >= 10, string.Join(", ", refused));
        using var ledger = LedgerFile.OpenReader(Path.Combine(bench.Folder, "data"));
        var verified = LedgerVerifier.Verify(ledger, CancellationToken.None);
        Assert.True(verified.Whole, string.Join("; ", verified.Faults.Select(f => $"{f.Serial} {f.Kind} {f.Text}").Append(verified.Unreadable)));
        Assert.True(verified.Entries > served);
    }

    private static Gen<T> Of<T>(params T[] all) => Gen.Int[0, all.Length - 1].Select(i => all[i]);

    private static string Kebab(string name) => name.ToLowerInvariant().Replace('_', '-');
}
