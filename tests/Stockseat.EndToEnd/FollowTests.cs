using System.Diagnostics;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

public abstract class FollowTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : FollowTests(Build.Ordinary);

    public sealed class Native() : FollowTests(Build.Native);

    [Fact]
    public async Task TailFollow_ShowsNewEntries_AndEndsWellWhenInterrupted()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "this system has no SIGINT");
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var follow = Follow(service, "--json", "--count", "1");
        try
        {
            var newest = Json(await follow.StandardOutput.ReadLineAsync().Within("the newest entry"));
            (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--tag", "a")).Exits(0);
            var next = Json(await follow.StandardOutput.ReadLineAsync().Within("the next entry"));

            Assert.Equal(newest.GetProperty("serial").GetInt64() + 1, next.GetProperty("serial").GetInt64());
            Assert.Equal("a", next.GetProperty("body").GetProperty("tag").GetString());
            Assert.Equal(0, Service.Signal(follow.Id, 2));
            Assert.Equal((0, ""), await End(follow));
        }
        finally
        {
            Kill(follow);
        }
    }

    [Fact]
    public async Task TailFollow_OfAServiceThatStops_Exits2AndSaysSo()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var follow = Follow(service, "--count", "1");
        try
        {
            await follow.StandardOutput.ReadLineAsync().Within("the head of the table");
            await follow.StandardOutput.ReadLineAsync().Within("the newest entry");
            (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--tag", "a")).Exits(0);
            Assert.Contains("  answer  pinbed-1  ", await follow.StandardOutput.ReadLineAsync().Within("the next entry"), StringComparison.Ordinal);

            Assert.Equal(0, (await service.Terminate()).ExitCode);
            var (exitCode, error) = await End(follow);
            Assert.Equal(2, exitCode);
            Assert.Contains("shutting-down", error, StringComparison.Ordinal);
        }
        finally
        {
            Kill(follow);
        }
    }

    [Fact]
    public async Task TailFollow_OfAFolder_Exits64() =>
        (await Program.Run("ledger", "tail", "--follow", "--data", "anywhere")).Fails(64, "leave --data out");

    private Process Follow(Service service, params string[] options)
    {
        string[] arguments = ["ledger", "tail", "--follow", .. options, "--server", $"http://{service.Grpc}"];

        // A shell starts background programs, and so these tests, with interrupts ignored; a program leaves that as it is.
        return OperatingSystem.IsLinux() ? Tool.Start("env", ["--default-signal=INT", Program.Path, .. arguments]) : Program.Start(arguments);
    }

    private static JsonElement Json(string? line) => JsonSerializer.Deserialize<JsonElement>(line!);

    private static async Task<(int ExitCode, string Error)> End(Process process)
    {
        var error = await process.StandardError.ReadToEndAsync().Within("the end of stderr");
        return (await process.Ends("ledger tail --follow"), error);
    }

    private static void Kill(Process process)
    {
        if (!process.HasExited)
        {
            process.Kill();
        }
    }
}
