using System.Text;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Tests.Reasons;

/// <summary>The page proto/reasons.md is made from the list of reasons that the service answers with.</summary>
public sealed class ReasonPage
{
    private const string Switch = "STOCKSEAT_WRITE_PAGES";

    private static readonly string Intro = $"""
        # Reasons

        Made by a test from the list of the service itself; DEVELOPERS.md says how.

        The reasons why an ask or a push is refused. It is one closed list, the same in lines, over gRPC, on the command line
        and in the ledger. The numbers never change and are never used again. A new reason gets the next number, so treat a
        reason that you don't know as a refusal too. Some reasons are kept for later versions and do not occur yet. The class
        says who can do something about it: `request` (whoever wrote the request), `cell` (somebody at the fixture: measure,
        adopt, …), `service` (nobody yet: ask again later). A refusal carries no coordinate, no default and no last value:
        stop, and never reuse the last shift.

        > **Cautions.** {Caution.Motion} {Caution.NotSafety("Stockseat")}
        > {Caution.NoAnswer}
        > {Caution.Local}

        Lines and the ledger have the name in lower-kebab case. gRPC has it as the `reason` of `google.rpc.ErrorInfo`, with
        the domain `stockseat`. The exit code is that of the command line.


        """;

    [Fact]
    public void The_page_agrees_with_the_list()
    {
        var page = Make();
        var file = Path.Combine(Repository.Root, "proto", "reasons.md");
        if (Environment.GetEnvironmentVariable(Switch) == "1")
        {
            File.WriteAllText(file, page);
        }

        var there = File.Exists(file) ? File.ReadAllText(file).ReplaceLineEndings("\n") : "";
        Assert.True(there == page,
            $"proto/reasons.md differs from the reasons: run this test with {Switch}=1, which writes it, and commit it\n{FirstDifference(there, page)}");
    }

    /// <summary>The codes by their published names: google/rpc/code.proto, which numbers them as gRPC does.</summary>
    [Theory]
    [InlineData(Reason.UnitMissing, "| 8 | unit-missing | UNIT_MISSING | request | INVALID_ARGUMENT (3) | 1 | add mm, m, um or in |")]
    [InlineData(Reason.SerialUnknown, "| 23 | serial-unknown | SERIAL_UNKNOWN | request | NOT_FOUND (5) | 1 | confirm the serial of an answer |")]
    [InlineData(Reason.ReadingsDisagree,
        "| 18 | readings-disagree | READINGS_DISAGREE | cell | FAILED_PRECONDITION (9) | 1 | clean stock and gauge, and measure again |")]
    [InlineData(Reason.TooBusy, "| 35 | too-busy | TOO_BUSY | service | RESOURCE_EXHAUSTED (8) | 2 | ask again in a second |")]
    public void A_row_shows_everything_that_belongs_to_a_reason(Reason reason, string row) => Assert.Equal(row, Row(reason));

    [Fact]
    public void Every_reason_has_one_row() =>
        Assert.Equal(Enum.GetValues<Reason>().Length - 1, Make().Split('\n').Count(l => l.Length > 2 && char.IsAsciiDigit(l[2])));

    private static string Make()
    {
        var page = new StringBuilder(Intro.ReplaceLineEndings("\n"));
        page.Append("| number | in lines and in the ledger | in gRPC | class | gRPC status | exit code | what to do |\n|---|---|---|---|---|---|---|\n");
        foreach (var reason in Enum.GetValues<Reason>().Where(r => r != Reason.None).Order())
        {
            page.Append(Row(reason)).Append('\n');
        }

        return page.ToString();
    }

    private static string Row(Reason reason)
    {
        var info = ReasonInfo.Of(reason);
        var cells = new[] { $"{(int)reason}", info.Name, info.GrpcName, info.Class.ToString().ToLowerInvariant(),
            $"{StatusName(info.GrpcStatus)} ({info.GrpcStatus})", $"{info.ExitCode}", info.Advice };
        Assert.DoesNotContain(cells, c => c.Contains('|', StringComparison.Ordinal));
        return $"| {string.Join(" | ", cells)} |";
    }

    private static string StatusName(int code) => code switch
    {
        3 => "INVALID_ARGUMENT",
        5 => "NOT_FOUND",
        7 => "PERMISSION_DENIED",
        8 => "RESOURCE_EXHAUSTED",
        9 => "FAILED_PRECONDITION",
        11 => "OUT_OF_RANGE",
        13 => "INTERNAL",
        14 => "UNAVAILABLE",
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "name this status here"),
    };

    private static string FirstDifference(string there, string page)
    {
        var (old, now) = (there.Split('\n'), page.Split('\n'));
        var at = Enumerable.Range(0, Math.Max(old.Length, now.Length)).FirstOrDefault(i => old.ElementAtOrDefault(i) != now.ElementAtOrDefault(i));
        return $"line {at + 1}\n  there: {old.ElementAtOrDefault(at)}\n  now:   {now.ElementAtOrDefault(at)}";
    }
}
