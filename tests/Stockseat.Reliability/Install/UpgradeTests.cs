using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>An upgrade ends with the new program ready, or says how to go back; and going back leaves nothing of it.</summary>
public sealed class UpgradeTests : IDisposable
{
    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    [Fact]
    public async Task ANewProgramThatDoesNotStart_IsReported_AndTheNextRunStartsIt()
    {
        await Running("one");
        File.WriteAllText(_scratch.Below("broken"), "");

        var upgraded = await Install(2, _scratch.Publish("two"));
        Assert.Contains("does not start with the new program", upgraded.Err, StringComparison.Ordinal);
        Assert.Equal("two", _scratch.InForce());

        File.Delete(_scratch.Below("broken"));
        _scratch.Told();
        await Install(0, _scratch.Publish("two"));
        Assert.Contains("restart stockseat", _scratch.Told());
    }

    [Fact]
    public async Task TheWayBack_LeavesNothingOfTheUpgrade()
    {
        await Running("one");
        var before = _scratch.Programs();
        File.WriteAllText(_scratch.Below("broken"), "");
        var back = (await Install(2, _scratch.Publish("two"))).Err.Split("To go back: ")[1].Trim();
        File.Delete(_scratch.Below("broken"));
        _scratch.Told();

        (await _scratch.Inside("/bin/sh", "-c", back)).Exits(0);

        Assert.Equal("one", _scratch.InForce());
        Assert.Equal(before, _scratch.Programs());
        Assert.Equal(["daemon-reload", "reset-failed stockseat", "restart stockseat"], _scratch.Told());

        // The same program again: it is there, it runs, and nothing is due any more.
        await Install(0, _scratch.Publish("one"));
        Assert.Equal(["daemon-reload"], _scratch.Told());
        Assert.Contains("There is no earlier program", (await _scratch.Inside("/bin/sh", "-c", back)).Exits(2).Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AProgramThatNeverStarted_IsNotWhatOneGoesBackTo()
    {
        await Running("one");
        File.WriteAllText(_scratch.Below("broken"), "");
        await Install(2, _scratch.Publish("two"));
        await Install(2, _scratch.Publish("three"));
        File.Delete(_scratch.Below("broken"));

        await Install(0, "--back");

        Assert.Equal("one", _scratch.InForce());
        Assert.Equal(2, _scratch.Programs().Count);
    }

    [Theory]
    [InlineData("activating")]
    [InlineData("reloading")]
    [InlineData("deactivating,deactivating,activating")]
    public async Task AServiceThatIsStartingOrAboutTo_IsRestartedWithTheNewProgram(string states)
    {
        await Running("one");
        State(states);

        Assert.Contains("restarted and ready", (await Install(0, _scratch.Publish("two"))).Out, StringComparison.Ordinal);
        Assert.Contains("restart stockseat", _scratch.Told());
    }

    [Theory]
    [InlineData("inactive")]
    [InlineData("failed")]
    [InlineData("deactivating,deactivating,inactive")]
    public async Task AServiceThatIsStoppedOrStopping_IsNotStarted(string states)
    {
        await Running("one");
        State(states);

        await Install(0, _scratch.Publish("two"));

        Assert.DoesNotContain("restart stockseat", _scratch.Told());
        Assert.Equal("two", _scratch.InForce());
    }

    [Theory]
    [InlineData("activating,activating,active", 0, "it is running")]
    [InlineData("activating,activating,failed", 2, "is not ready: systemd says 'failed'")]
    public async Task NothingNewWhileTheServiceStarts_ItsReadinessIsAwaited(string states, int code, string said)
    {
        await Running("one");
        State(states);

        var run = await Install(code, _scratch.Publish("one"));

        Assert.Contains(said, run.Out + run.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatOnlyADebuggerNeeds_IsNotInstalled()
    {
        Needs.Linux();
        var published = _scratch.Publish("one");
        string[] debugging = ["stockseat.dbg", "stockseat.pdb", "Stockseat.Ledger.xml"];
        foreach (var file in debugging)
        {
            File.WriteAllText(Path.Combine(published, file), file);
        }

        (await _scratch.Stage("install.sh", published)).Exits(0);

        Assert.Equal(["LICENSE", "libe_sqlite3.so", "stockseat", "stockseat.service", "third-party-notices.md"],
            Directory.EnumerateFiles(_scratch.Below("opt/stockseat")).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal));
        Assert.All(debugging, f => Assert.True(File.Exists(Path.Combine(published, f)), "the published folder is not ours to change"));
    }

    private async Task Running(string name)
    {
        await _scratch.Prepare();
        await Install(0, _scratch.Publish(name), Scratch.Config);
        (await _scratch.Inside("systemctl", "start", "stockseat")).Exits(0);
        _scratch.Told();
    }

    /// <summary>What systemd says, one state after the other; the last one stays.</summary>
    private void State(string states) => File.WriteAllLines(_scratch.Below("next"), states.Split(','));

    private async Task<Run> Install(int code, params string[] arguments) => (await _scratch.Install("install.sh", arguments)).Exits(code);
}
