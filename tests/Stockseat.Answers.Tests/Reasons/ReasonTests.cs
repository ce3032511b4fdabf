using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Tests.Reasons;

public sealed class ReasonTests
{
    /// <summary>On the wire and on disk: lines are only ever added, never changed.</summary>
    private const string Frozen = """
        1 fixture-unknown request 5 1
        2 fixture-withdrawn cell 9 1
        3 fixture-held cell 9 1
        4 calibration-unusable cell 9 1
        5 revision-changed cell 9 1
        6 diameter-missing request 3 1
        7 diameter-malformed request 3 1
        8 unit-missing request 3 1
        9 unit-unknown request 3 1
        10 diameter-below-envelope cell 11 1
        11 diameter-above-envelope cell 11 1
        12 shift-above-limit cell 11 1
        13 uncertainty-above-limit cell 11 1
        14 mass-above-limit cell 11 1
        15 measurement-missing cell 9 1
        16 measurement-stale cell 9 1
        17 measurement-outside-lot cell 9 1
        18 readings-disagree cell 9 1
        19 gauge-unknown request 5 1
        20 lot-unknown request 5 1
        21 nest-unknown request 3 1
        22 purpose-unknown request 3 1
        23 serial-unknown request 5 1
        24 readback-differs cell 9 1
        25 recheck-failed cell 9 1
        26 revision-unknown request 5 1
        27 verb-unknown request 3 1
        28 key-unknown request 3 1
        29 key-doubled request 3 1
        30 key-missing request 3 1
        31 value-malformed request 3 1
        32 request-malformed request 3 1
        33 request-too-long request 3 1
        34 not-permitted request 7 1
        35 too-busy service 8 2
        36 ledger-unavailable service 14 2
        37 shutting-down service 14 2
        38 internal-failure service 13 2
        39 readback-missing request 3 1
        40 confirmation-missing cell 9 1
        41 answer-superseded cell 9 1
        42 lot-still-loaded cell 9 1
        43 diameter-above-raw request 11 1
        44 not-measured request 9 1
        45 revision-changed-meanwhile cell 9 1
        46 load-missing cell 9 1
        47 move-unfinished cell 9 1
        48 load-empty cell 9 1
        49 length-missing cell 9 1
        50 length-outside-lot cell 9 1
        51 length-above-limit cell 11 1
        """;

    private static readonly Reason[] All = [.. Enum.GetValues<Reason>().Where(r => r != Reason.None)];

    [Fact]
    public void The_table_equals_the_frozen_table()
    {
        var now = All.Select(r => (Number: (int)r, Info: ReasonInfo.Of(r)))
            .Select(r => $"{r.Number} {r.Info.Name} {r.Info.Class.ToString().ToLowerInvariant()} {r.Info.GrpcStatus} {r.Info.ExitCode}");

        Assert.Equal(Frozen.ReplaceLineEndings("\n").Split('\n'), now);
    }

    [Fact]
    public void The_classes_have_their_numbers() =>
        Assert.Equal([(1, "Request"), (2, "Cell"), (3, "Service")], Enum.GetValues<ReasonClass>().Select(c => ((int)c, c.ToString())));

    [Fact]
    public void Every_member_is_found_by_its_name_and_has_advice()
    {
        Assert.Equal(51, All.Length);
        Assert.Equal(All.Length, All.Select(r => ReasonInfo.Of(r).Name).Distinct().Count());
        Assert.All(All, r =>
        {
            Assert.Equal(r, ReasonInfo.Find(ReasonInfo.Of(r).Name));
            Assert.NotEmpty(ReasonInfo.Of(r).Advice);
        });
    }

    [Fact]
    public void The_enum_s_name_is_in_kebab_case_for_lines_and_in_snake_case_for_grpc()
    {
        Assert.All(All, r => Assert.Equal(r.ToString(), string.Concat(ReasonInfo.Of(r).Name.Split('-').Select(w => char.ToUpperInvariant(w[0]) + w[1..]))));
        Assert.Equal("DIAMETER_BELOW_ENVELOPE", ReasonInfo.Of(Reason.DiameterBelowEnvelope).GrpcName);
    }

    [Theory]
    [InlineData("")]
    [InlineData("none")]
    [InlineData("FIXTURE_UNKNOWN")]
    [InlineData("fixture-unknown ")]
    public void Any_other_name_is_not_a_reason(string name) => Assert.Equal(Reason.None, ReasonInfo.Find(name));

    [Fact]
    public void None_has_no_info() => Assert.ThrowsAny<KeyNotFoundException>(() => ReasonInfo.Of(Reason.None));

    [Fact]
    public void A_refusal_s_text_ends_with_the_advice()
    {
        var refusal = Refusal.Of(Reason.NestUnknown, "there is none", ("columns", "6"));

        Assert.Equal("there is none; ask for a nest of the layout; the first is 0,0", refusal.Text);
        Assert.Equal("6", Assert.Single(refusal.Limits!).Value);
        Assert.Null(Refusal.Of(Reason.NestUnknown, "x").Limits);
    }
}
