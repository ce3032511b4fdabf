using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Watching;

public sealed class AdoptedWhileAskedTests
{
    [Fact]
    public async Task A_revision_comes_into_force_without_a_restart_and_each_answer_is_from_exactly_one_revision()
    {
        await using var watched = await Watched.Start();
        var controller = await Controller.Start(watched.Bench);
        await controller.More(20);

        watched.Bench.WritePins(4, edits: ("\"x\": \"412.30 mm\"", "\"x\": \"413.30 mm\""));
        await watched.UntilState(4, RevisionState.Waiting);
        Assert.Equal([4], (await watched.Shown())!.Waiting);
        await controller.More(20);
        var adopted = await watched.Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "bed moved" });
        await controller.More(20);
        var replies = await controller.Stop();

        Assert.All(replies, r => Assert.StartsWith("ok ", r, StringComparison.Ordinal));
        Assert.All(replies, r => Assert.Equal(long.Parse(LineClient.Value(r, "serial")!) < adopted.Serial ? ("3", BedPick.X) : ("4", "0.408569"),
            (LineClient.Value(r, "revision"), LineClient.Value(r, "x"))));
        Assert.Equal(["3", "4"], replies.Select(r => LineClient.Value(r, "revision")).Distinct());
        var answers = await watched.Entries("answer");
        Assert.Equal(replies.Select(r => LineClient.Value(r, "serial")), answers.Select(a => a.GetProperty("serial").GetRawText()));
        Assert.All(answers, a => Assert.Equal(a.GetProperty("serial").GetInt64() < adopted.Serial ? 3 : 4, a.GetProperty("revision").GetInt32()));
        Assert.Empty(await watched.Entries("refusal"));
    }

    [Fact]
    public async Task A_new_fixture_is_served_at_once_where_the_configuration_says_so()
    {
        await using var watched = await Watched.Start();
        watched.Bench.WritePins(1, "pinbed-7");
        watched.Bench.WritePins(2, "pinbed-7");
        await watched.UntilState(2, RevisionState.InForce, "pinbed-7");

        using var line = await watched.Bench.Line();
        Assert.Equal("2", LineClient.Value(await line.Ask("locate fixture=pinbed-7 diameter=92.4mm"), "revision"));
        Assert.True((await watched.Entries("revision-adopted"))[^1].GetProperty("automatic").GetBoolean());

        watched.Bench.WritePins(3, "pinbed-7");
        await watched.UntilState(3, RevisionState.Waiting, "pinbed-7");
        Assert.Equal("2", LineClient.Value(await line.Ask("locate fixture=pinbed-7 diameter=92.4mm"), "revision"));
    }

    [Fact]
    public async Task A_new_fixture_waits_where_adoption_is_manual()
    {
        await using var watched = await Watched.Start(s => s["FirstAdoption"] = "manual");
        watched.Bench.WritePins(1, "pinbed-7");
        await watched.UntilState(1, RevisionState.Waiting, "pinbed-7");

        using var line = await watched.Bench.Line();
        Assert.Contains("reason=calibration-unusable", await line.Ask("locate fixture=pinbed-7 diameter=92.4mm"), StringComparison.Ordinal);
        Assert.Equal("1", LineClient.Value(await line.Ask("status fixture=pinbed-7"), "waiting"));
        Assert.Empty(await watched.Entries("revision-adopted"));
    }
}
