using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Snapshots;
using Stockseat.Answers.Verbs;

namespace Stockseat.Answers.Tests.Verbs;

public sealed class BodyJsonTests
{
    private static readonly string Digest = new('d', 64);

    private static readonly EntryBody[] All =
    [
        new ServiceStartedBody { Ledger = "id", Program = "0.1.0", Host = "h", Process = 7 },
        new ServiceStoppedBody(),
        new UncleanStopBody { Last = 12 },
        new ClockStepBody { Seconds = -3600.000001, Before = "2026-11-25T09:00:00.000000Z", AtStart = true, LastBack = 4 },
        new RevisionAdoptedBody
        {
            Fixture = "f", Revision = 2, Digest = Digest, By = "b\u202e\"\n", Why = "w", Automatic = true,
            Content = JsonDocument.Parse("""{"a":[1,0.1,"é"]}""").RootElement,
        },
        new RevisionRejectedBody { Fixture = "f", Revision = 3, File = "00", Faults = ["one", "two"] },
        new MeasurementBody { Fixture = "f", Diameter = 0.1 + 0.2, Readings = [0.1, 1 / 3.0], Unit = "in", Gauge = "g", Lot = "l", LotTerms = new(),
            FreshFor = 28800 },
        new LotDescribedBody { Lot = "l", LotTerms = new() { Nominal = 0.0925, Tolerance = "h11", Plus = 0, Minus = 0.00022, OutOfRound = 0.1 + 0.2 } },
        new RolledOverBody
        {
            Ledger = "new", Follows = new() { Ledger = "old", Last = 41, Hash = "00" },
            Carried = [JsonDocument.Parse("""{"v":1,"serial":2,"at":"2026-11-25T08:00:00.000000Z","kind":"emptied","a":[1,0.1,"é"]}""").RootElement],
        },
        new SnapshotBody
        {
            Carried = [JsonDocument.Parse("""{"v":1,"serial":2,"at":"2026-11-25T08:00:00.000000Z","kind":"emptied","a":[1,0.1,"é"]}""").RootElement],
        },
        new SealBody { Ledger = "id", Sealed = 41, Head = "00", Key = "11", PublicKey = "MFkw+/==", Signature = "MEUC+/==" },
        new EmptiedBody { Fixture = "f", Tag = "t", Request = "r", Client = "c", Cell = "e", Address = "a" },
        new HeldBody { Fixture = "f", By = "b\u202e", Why = "w" },
        new ReleasedBody { Fixture = "f", By = "b", Why = "w", Of = "o", Left = 2 },
        new RecheckBody
        {
            Fixture = "f", Revision = 3, Digest = "d", By = "b", Note = "\"passed\":false", Master = 0.08, MasterWithin = 0.000002, Nest = [2, 1],
            Predicted = [0.1, 0.2, 0.3],
            Found = [0.1 + 0.2, -0.0, 3], MissBase = [0.2, -0.2, 2.7], Miss = new() { Along = 1e-7, Across = -0.1, OutOfPlan = 0 },
            Expected = new() { Along = 0.0003, Across = 0.0004 },
            Limit = 0.0005, Passed = false, RefuseAfterMiss = true,
        },
        new AnswerBody
        {
            Fixture = "f", Revision = 3, Digest = Digest, Purpose = "place", Nest = [2, 1], Diameter = 1 / 3.0, Measurement = 5, Age = 0.000001,
            Lot = "l", First = true, StandOff = 5e-324,
            Position = [0.1 + 0.2, -0.0, 999.9999999999999], Orientation = [1, 0, 0, 0], ShiftBase = [Math.PI, 1e-300, -1e2],
            ShiftOrigin = [1e2, 1e-7, 2.5], Decimals = 3,
        },
        new RefusalBody
        {
            Asked = "locate", Reason = "nest-unknown", Number = 21, Text = "t", Limits = new Dictionary<string, string> { ["a"] = "b" }, Purpose = "pick",
            Nest = [9, 9],
            Diameter = 0.3, Readings = [0.1], Measurement = 4, Gauge = "g", Lot = "l", Confirms = 3, By = "b", Why = "w", Of = "o",
            ReadBack = new Dictionary<string, string> { ["by"] = "1" }, RetryOf = 2,
        },
        new DoneBody { Fixture = "f", Revision = 3, Digest = Digest, Answer = 3, Confirmation = 4, Purpose = "pick", Nest = [2, 1], ShiftBase = [0.1, 0.2, 0.3],
            By = "b" },
        new TrialBody
        {
            Fixture = "f", Revision = 3, Digest = Digest, Purpose = "pick", Nest = [0, 0], Diameter = 0.09, Proving = "required", First = true,
            StandOff = 0.1, Position = [0.1, 0.2, 0.3], Orientation = [1, 0, 0, 0], ShiftBase = [0.1, 0.2, 0.3], ShiftOrigin = [0.1, 0.2, 0.3],
        },
        new GridBody
        {
            Fixture = "f", Revision = 3, Digest = Digest, Purpose = "pick", Nest = [0, 0], Diameter = 0.09, Length = 0.12, First = true, StandOff = 0.1,
            Position = [0.1, 0.2, 0.3], Orientation = [1, 0, 0, 0], ShiftBase = [0.1, 0.2, 0.3], ShiftOrigin = [0.1, 0.2, 0.3], Count = 24,
            PositionsDigest = Digest,
        },
        new LoadedBody { Fixture = "f", Columns = 6, Rows = 4, Nests = [[0, 1], [5, 3]], Count = 2, Replaces = 7, ReplacedLeft = 3, Unfinished = 9 },
        new DroppedBody { Fixture = "f", Revision = 3, Digest = Digest, Answer = 3, Load = 2, Purpose = "pick", Nest = [2, 1], Again = true, By = "b" },
        new NoteBody { Fixture = "f", By = "b", Text = "t", Entry = 3, Instant = "2026-11-25T08:00:00.000000Z" },
        new ConfirmationBody { Confirms = 3, Purpose = "pick", Numbers = "full", ShiftBase = [0.1, 0.2, 0.3],
            ReadBack = new Dictionary<string, string> { ["by"] = "0.1" },
            Other = 2 },
    ];

    public static TheoryData<string> KindsOfAll => [.. All.Select(b => b.Kind)];

    [Fact]
    public void There_is_one_body_of_every_kind() =>
        Assert.Equal(typeof(Kinds).GetFields().Select(f => (string)f.GetRawConstantValue()!).Order(StringComparer.Ordinal),
            All.Select(b => b.Kind).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(KindsOfAll))]
    public void A_body_reads_back_to_the_same_bytes(string kind)
    {
        var bytes = Bench.Bytes(Of(kind));

        var back = BodyJson.Read(kind, bytes)!;

        Assert.Equal(Of(kind).GetType(), back.GetType());
        Assert.Equal(Encoding.UTF8.GetString(bytes), Encoding.UTF8.GetString(Bench.Bytes(back)));
    }

    [Theory]
    [MemberData(nameof(KindsOfAll))]
    public void A_body_begins_with_version_serial_instant_and_kind_and_has_no_null(string kind)
    {
        var text = Encoding.UTF8.GetString(Bench.Bytes(Of(kind)));

        Assert.StartsWith($$"""{"v":2,"serial":42,"at":"2026-11-25T08:00:00.000000Z","kind":"{{kind}}""", text, StringComparison.Ordinal);
        Assert.DoesNotContain("null", text, StringComparison.Ordinal);
        Assert.All(text, c => Assert.InRange(c, ' ', '~'));
    }

    [Fact]
    public void The_names_are_the_documented_names() => Assert.Equal(
        """{"v":2,"serial":42,"at":"2026-11-25T08:00:00.000000Z","kind":"confirmation","confirms":3,"purpose":"pick",""" + "\""
        + """numbers":"full","shiftBase":[0.1,0.2,0.3],"readBack":{"by":"0.1"},"other":2}""",
        Encoding.UTF8.GetString(Bench.Bytes(Of(Kinds.Confirmation))));

    [Fact]
    public void Every_double_comes_back_bit_for_bit() => Gen.OneOf(Gen.Double[-999, 999], Gen.Double.Where(d => Math.Abs(d) < 1000)).Array[3].Sample(numbers =>
    {
        var body = new ConfirmationBody { Serial = 2, At = EntryTime.Text(Bench.Start), Confirms = 1, Purpose = "pick", ShiftBase = numbers };

        var back = (ConfirmationBody)BodyJson.Read(Kinds.Confirmation, Bench.Bytes(body))!;

        return back.ShiftBase.Select(BitConverter.DoubleToInt64Bits).SequenceEqual(numbers.Select(BitConverter.DoubleToInt64Bits));
    }, iter: 5_000);

    [Fact]
    public void Values_read_back()
    {
        var back = (AnswerBody)BodyJson.Read(Kinds.Answer, Bench.Bytes(Of(Kinds.Answer)))!;

        Assert.Equal([0.1 + 0.2, 0, 999.9999999999999], back.Position);
        Assert.True(double.IsNegative(back.Position[1]));
        Assert.Equal((5e-324, 5L, 0.000001, 3, true), (back.StandOff, back.Measurement, back.Age, back.Decimals, back.First));
    }

    [Fact]
    public void An_answer_in_metres_states_no_unit_as_in_bodies_from_before_units()
    {
        var body = (AnswerBody)Of(Kinds.Answer);

        Assert.DoesNotContain("\"unit\"", Encoding.UTF8.GetString(Bench.Bytes(body)), StringComparison.Ordinal);
        Assert.EndsWith(",\"decimals\":0,\"unit\":\"um\"}", Encoding.UTF8.GetString(Bench.Bytes(body with { Unit = "um", Decimals = 0 })),
            StringComparison.Ordinal);
        Assert.Equal(ServedUnit.Metre, ((AnswerBody)BodyJson.Read(Kinds.Answer, Bench.Bytes(body))!).ServedIn);
    }

    [Fact]
    public void A_unit_of_a_later_version_is_not_read_as_metres() =>
        Assert.Throws<JsonException>(() => (((AnswerBody)Of(Kinds.Answer)) with { Unit = "in" }).ServedIn);

    [Fact]
    public void A_number_that_json_does_not_have_is_never_written() => Assert.ThrowsAny<ArgumentException>(
        () => Bench.Bytes(new ConfirmationBody { Confirms = 1, Purpose = "pick", ShiftBase = [double.NaN, 0, 0] }));

    [Theory]
    [InlineData("shiftBase", "[1,2]", "shiftBase has 2 values; 3 were expected")]
    [InlineData("shiftBase", "[1000,0,0]", "shiftBase is 1000; between -1000 and 1000 m was expected")]
    [InlineData("shiftBase", "null", "shiftBase")]
    [InlineData("purpose", "\"pluck\"", "purpose is 'pluck'; pick or place was expected")]
    [InlineData("at", "\"9999-12-31T23:59:59.999999Z\"", "at is '9999-12-31T23:59:59.999999Z', which is not an instant from 1970 to 2999")]
    [InlineData("readBack", "{\"by\":null}", "readBack has null in place of a text")]
    public void A_value_that_the_service_never_writes_is_reported(string name, string value, string fault)
    {
        var body = JsonNode.Parse(Bench.Bytes(Of(Kinds.Confirmation)))!;
        body[name] = JsonNode.Parse(value);

        Assert.Contains(fault, Assert.Throws<JsonException>(() =>
            BodyJson.Read(Kinds.Confirmation, Encoding.UTF8.GetBytes(body.ToJsonString()))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_kind_is_not_a_body() => Assert.Null(BodyJson.Read("sealed", "{}"u8));

    [Fact]
    public void A_body_without_its_required_values_is_not_a_body() => Assert.ThrowsAny<JsonException>(() => BodyJson.Read(Kinds.Answer, "{\"v\":1}"u8));

    [Theory]
    [InlineData("2026-11-25T08:00:00.123456Z")]
    [InlineData("0001-01-01T00:00:00.000000Z")]
    [InlineData("9999-12-31T23:59:59.999999Z")]
    public void An_instant_reads_back_unchanged(string text) => Assert.Equal(text, EntryTime.Text(EntryTime.Parse(text)));

    [Fact]
    public void An_instant_is_written_in_utc() =>
        Assert.Equal("2026-11-25T08:00:00.000000Z", EntryTime.Text(new(2026, 11, 25, 9, 0, 0, TimeSpan.FromHours(1))));

    private static EntryBody Of(string kind)
    {
        var body = Array.Find(All, b => b.Kind == kind)!;
        (body.Serial, body.At) = (42, EntryTime.Text(Bench.Start));
        return body;
    }
}
