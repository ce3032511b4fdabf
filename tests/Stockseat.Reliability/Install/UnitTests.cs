using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>systemd accepts the unit, the unit is restrictive, and the service is started again where a new start can help.</summary>
public sealed partial class UnitTests : IDisposable
{
    /// <summary>systemd's exposure score in tenths: 1.9, so below 2.0.</summary>
    private const string Threshold = "--threshold=19";

    private static readonly string Unit = File.ReadAllText(Path.Combine(Scratch.Scripts, "stockseat.service"));

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-unit-");

    [Theory]
    [InlineData("Type", "notify")]
    [InlineData("WatchdogSec", "30")]
    [InlineData("User", "stockseat")]
    [InlineData("StateDirectory", "stockseat")]
    [InlineData("Restart", "on-failure")]
    [InlineData("RestartPreventExitStatus", "64")]
    [InlineData("StartLimitBurst", "30")]
    [InlineData("Environment", "DOTNET_EnableDiagnostics=0")]
    public void Unit_StatesOnce_WhatTheServiceReliesOn(string key, string value) =>
        Assert.Equal([value], Regex.Matches(Unit, $"^{key}=(.*)$", RegexOptions.Multiline).Select(m => m.Groups[1].Value));

    [Fact]
    public async Task Unit_IsAcceptedBySystemd()
    {
        Needs.Programs("systemd-analyze");

        Assert.Equal((0, ""), await Analyze("verify", Unit));
    }

    [Theory]
    [InlineData("StateDirectory=", "StateDirectroy=")]
    [InlineData("WatchdogSec=30", "WatchdogSec=often")]
    public async Task Unit_WithAMistake_IsNotAccepted(string old, string @new)
    {
        Needs.Programs("systemd-analyze");
        Assert.Contains(old, Unit, StringComparison.Ordinal);

        Assert.NotEqual((0, ""), await Analyze("verify", Unit.Replace(old, @new, StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Unit_IsRestrictive()
    {
        Needs.Programs("systemd-analyze");

        Assert.Equal(0, (await Analyze("security", Unit, "--offline=true", Threshold)).Code);
    }

    [Fact]
    public async Task Unit_ForTheOrdinaryBuild_IsRestrictive()
    {
        Needs.Programs("systemd-analyze");
        using var scratch = new Scratch();
        (await scratch.Stage("install.sh", scratch.Publish("one", ordinary: true))).Exits(0);
        var dropIn = File.ReadAllText(scratch.Below("etc/systemd/system/stockseat.service.d/10-ordinary-build.conf"));

        Assert.Contains("MemoryDenyWriteExecute=no", dropIn, StringComparison.Ordinal);
        Assert.Equal(0, (await Analyze("security", $"{Unit}\n{dropIn}", "--offline=true", Threshold)).Code);
    }

    [Theory]
    [InlineData("PrivateUsers=yes", "CapabilityBoundingSet=", "NoNewPrivileges=yes")]
    [InlineData("SystemCallFilter=@system-service", "SystemCallFilter=~@privileged @resources")]
    [InlineData("ProtectSystem=strict", "ProtectHome=yes", "PrivateTmp=yes", "PrivateDevices=yes", "User=stockseat", "Group=stockseat")]
    public async Task Unit_WithoutSomeOfItsLines_IsNotRestrictive(params string[] lines)
    {
        Needs.Programs("systemd-analyze");
        var loose = Unit.Split('\n').ToList();
        Assert.All(lines, l => Assert.True(loose.Remove(l), $"not in the unit: {l}"));

        Assert.Equal(1, (await Analyze("security", string.Join('\n', loose), "--offline=true", Threshold)).Code);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    /// <summary>The exit code and the whole output. The program and the user need not exist on this machine.</summary>
    private async Task<(int Code, string Said)> Analyze(string verb, string unit, params string[] options)
    {
        var file = Path.Combine(_folder.FullName, "stockseat.service");
        await File.WriteAllTextAsync(file, Program().Replace(unit, "ExecStart=/bin/true"));
        var run = await Tool.Run("systemd-analyze", [verb, "--no-pager", .. options, file]);
        return (run.ExitCode, (run.Out + run.Err).Trim());
    }

    [GeneratedRegex("^ExecStart=[^ ]+", RegexOptions.Multiline)]
    private static partial Regex Program();
}
