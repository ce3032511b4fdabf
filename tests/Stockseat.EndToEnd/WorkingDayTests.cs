using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>
/// A working day with two changes of stock, an adoption, a missed confirmation, a read-back that differs, a stale measurement, a hold, a clock step, a
/// restart and a crash: what maintenance finds out afterwards.
/// </summary>
public abstract class WorkingDayTests(Build build, WorkingDays days) : OnBothBuilds(build), IClassFixture<WorkingDays>
{
    public sealed class Ordinary(WorkingDays days) : WorkingDayTests(Build.Ordinary, days);

    public sealed class Native(WorkingDays days) : WorkingDayTests(Build.Native, days);

    [Fact]
    public async Task Every_answer_of_the_day_comes_out_the_same_here_and_in_Python()
    {
        var day = await days.Get(Program);

        var computed = await day.Recompute(Program);
        var replayed = (await Program.Run("ledger", "replay", "--data", day.Data, "--json")).Exits(0).Object;

        Assert.Empty(computed.GetProperty("differences").EnumerateArray());
        Assert.Equal((13, 4), (computed.GetProperty("answers").GetInt32(), computed.GetProperty("refusals").GetInt32()));
        Assert.True(replayed.GetProperty("agrees").GetBoolean());
        Assert.Equal((13, 4), (replayed.GetProperty("answers").GetInt32(), replayed.GetProperty("refusals").GetInt32()));
        (await Program.Run("ledger", "verify", "--data", day.Data)).Exits(0);
    }

    [Theory]
    [InlineData(",-0.1986", ",-0.1985", "position[1]")]
    [InlineData("\"along\":0.00023", "\"along\":0.00024", "uncertainty[0]")]
    [InlineData("\"first\":true", "\"first\":false", "first")]
    [InlineData("\"reason\":\"fixture-held\"", "\"reason\":\"measurement-missing\"", "reason")]
    public async Task Python_finds_entries_that_do_not_follow(string old, string other, string where)
    {
        var day = await days.Get(Program);
        var file = await day.Export(Program);
        var text = await File.ReadAllTextAsync(file);
        var at = text.IndexOf(old, StringComparison.Ordinal);
        Assert.True(at > 0, old);
        await File.WriteAllTextAsync(file, text[..at] + other + text[(at + old.Length)..]);

        var computed = await WorkingDay.Recompute(file);

        Assert.Contains(where, Assert.Single(computed.GetProperty("differences").EnumerateArray()).GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Review_of_the_crash_says_what_went_wrong_and_what_was_served()
    {
        var day = await days.Get(Program);
        var (last, served, read) = (Text(day, "last"), Text(day, "served"), Text(day, "read"));

        var review = (await Program.Run("ledger", "review", "--data", day.Data, "--at", day.Crash, "--before", "1min", "--verify", "--json")).Exits(0).Object;
        var text = (await Program.Run("ledger", "review", "--data", day.Data, "--at", day.Crash, "--before", "1min")).Exits(0).Out;

        var findings = review.GetProperty("findings").EnumerateArray().Select(f => f.GetProperty("rule").GetString()!).ToList();
        Assert.Equal("read-back-differs", findings[0]);
        Assert.Contains("clock-step", findings);
        Assert.Contains("restart", findings);
        var first = review.GetProperty("summary")[0].GetString()!;
        var what = review.GetProperty("findings")[0].GetProperty("what").GetString()!;
        Assert.StartsWith(
            "Most likely the controller moved by a number that was not the one it was served; the robot may have been up to ", first, StringComparison.Ordinal);
        Assert.Contains($"{1000 * decimal.Parse(served):0.000}", what, StringComparison.Ordinal);
        Assert.Contains($"{1000 * decimal.Parse(read):0.000}", what, StringComparison.Ordinal);
        Assert.Contains(last, what, StringComparison.Ordinal);
        Assert.Contains(first, text, StringComparison.Ordinal);
        Assert.Contains(what, text, StringComparison.Ordinal);
        // Judged by the time that really passed: also entries from before the clock was set, in the order in which they happened.
        var answers = review.GetProperty("answers").EnumerateArray().ToList();
        Assert.Equal([52, 58], answers.Select(a => a.GetProperty("serial").GetInt32()));
        Assert.Equal((52, 57), (answers[1].GetProperty("before").GetInt32(), answers[1].GetProperty("measurement").GetInt32()));
        Assert.Equal(Enumerable.Range(51, 9), review.GetProperty("entries").EnumerateArray().Select(e => e.GetProperty("serial").GetInt32()));
        Assert.Equal(4, Assert.Single(review.GetProperty("fixtures").EnumerateArray()).GetProperty("revision").GetInt32());
        Assert.True(review.GetProperty("whole").GetProperty("whole").GetBoolean());
        Assert.True(review.GetProperty("replay").GetProperty("agrees").GetBoolean());
        Assert.True(review.GetProperty("chain").GetProperty("follows").GetBoolean());
    }

    [Fact]
    public async Task Review_of_the_whole_day_finds_every_problem_put_into_it()
    {
        var day = await days.Get(Program);

        var review = (await Program.Run("ledger", "review", "--data", day.Data, "--at", day.Crash, "--before", "9h", "--after", "1h", "--json")).Exits(0)
            .Object;

        var found = review.GetProperty("findings").EnumerateArray().ToLookup(f => f.GetProperty("rule").GetString()!, f => Serials(f));
        Assert.Equal(
            ["adoption-between", "clock-step", "not-confirmed", "read-back-differs", "restart", "unproven-revision"],
            found.Select(f => f.Key).Order(StringComparer.Ordinal));
        Assert.Contains(Text(day, "unconfirmed"), found["not-confirmed"].SelectMany(s => s));
        Assert.Contains("34", found["adoption-between"].SelectMany(s => s));
    }

    [Fact]
    public async Task Review_of_a_quiet_day_finds_nothing_but_what_was_never_proven()
    {
        using var day = await WorkingDay.Play(Program, quiet: true);

        var review =
            (await Program.Run("ledger", "review", "--data", day.Data, "--at", "2026-11-25T10:30:00Z", "--before", "9h", "--after", "9h", "--verify", "--json"))
                .Exits(0).Object;

        // Nobody proved the revisions by rechecks, and the review says so; nothing else.
        Assert.All(review.GetProperty("findings").EnumerateArray(), f => Assert.Equal("unproven-revision", f.GetProperty("rule").GetString()));
        Assert.Equal(9, review.GetProperty("answers").GetArrayLength());
        Assert.All(review.GetProperty("answers").EnumerateArray(), a => Assert.True(a.TryGetProperty("confirmedBy", out _)));
    }

    [Fact]
    public async Task The_service_reports_the_same_as_the_folder()
    {
        using var day = await WorkingDay.Play(Program);
        await using var service = await Program.Serve(day.Cell);
        (await service.Ask("ledger", "note", "gripper hit pin 2 of nest 3,0", "--by", "fitter", "--entry", Text(day, "last"))).Exits(0);
        foreach (var form in new[] { "--json", "--csv" })
        {
            string[] question = ["ledger", "review", "--at", day.Crash, "--before", "9h", "--after", "1h", "--jump", "0.5mm", form];

            var asked = (await service.Ask(question)).Exits(0).Out;

            Assert.Equal((await Program.Run([.. question, "--data", day.Data])).Exits(0).Out, asked);
        }

        var text = (await service.Ask("ledger", "review", "--at", day.Crash)).Exits(0).Out;
        Assert.Matches($@"noted by fitter: ""gripper hit pin 2 of nest 3,0"" \(entry \d+\)", text);
        string[] one = ["ledger", "replay", "58", "--json"];
        Assert.Equal((await Program.Run([.. one, "--data", day.Data])).Exits(0).Out, (await service.Ask(one)).Exits(0).Out);
        (await service.Ask("ledger", "replay", "999")).Fails(1, "serial-unknown");
        (await service.Ask("ledger", "review", "--at", "999")).Fails(1, "serial-unknown");
        (await Program.Run("ledger", "review", "--at", "999", "--data", day.Data)).Fails(2, "there is no entry 999");
    }

    [Fact]
    public async Task The_report_is_a_new_file_and_is_never_overwritten()
    {
        var day = await days.Get(Program);
        var file = Path.Combine(day.Cell.Folder, "report.html");
        string[] question = ["ledger", "review", "--data", day.Data, "--at", day.Crash, "--html", file];

        (await Program.Run(question)).Exits(0);

        var page = await File.ReadAllTextAsync(file);
        Assert.Contains("6.398 mm", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        (await Program.Run(question)).Fails(2, "already exists");
        Assert.Equal(page, await File.ReadAllTextAsync(file));
        (await Program.Run("ledger", "review", "--data", day.Data, "--at", "noon")).Fails(64, "is not an instant");
        (await Program.Run("ledger", "review", "--data", day.Data, "--at", "1", "--before", "2m")).Fails(64, "a time with its unit");
        (await Program.Run("ledger", "review", "--data", day.Data)).Fails(64, "--at");
    }

    private static string Text(WorkingDay day, string name) => day.Moments.GetProperty(name).GetString()!;

    private static List<string> Serials(JsonElement finding) => [.. finding.GetProperty("serials").EnumerateArray().Select(s => s.GetRawText())];
}
