using Stockseat.EndToEnd.Support;

namespace Stockseat.Reliability.Support;

/// <summary>What a test needs of its machine; where that is missing the test is skipped, with the reason.</summary>
internal static class Needs
{
    private static readonly string[] Folders = [.. (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator), "/usr/sbin", "/sbin"];

    public static void Linux() => Assert.SkipUnless(OperatingSystem.IsLinux(), "this test needs Linux");

    public static void Root()
    {
        Linux();
        Assert.SkipUnless(Environment.IsPrivilegedProcess, "this test mounts file systems and makes networks: run it as root");
    }

    public static void Programs(params string[] names)
    {
        Linux();
        var missing = names.Where(n => Find(n) is null).ToList();
        Assert.SkipWhen(missing.Count > 0, $"not installed: {string.Join(", ", missing)}; tests/run installs them where it can");
    }

    /// <summary>PowerShell, which Debian does not have and tests/run does not install.</summary>
    public static void Pwsh() => Assert.SkipWhen(Find("pwsh") is null, "PowerShell is not installed: dotnet tool install --global PowerShell");

    /// <summary>Programs may be traced here, and faults can be injected.</summary>
    public static async Task Strace()
    {
        Programs("strace");
        var run = await Tool.Run("strace", ["-D", "-f", "--seccomp-bpf", "-o", "/dev/null", "-e", "trace=fsync", "-e", "inject=fsync:error=EIO", "true"]);
        Assert.SkipUnless(run.ExitCode == 0, $"strace can't inject faults here: {run.Err.Trim()}");
    }

    /// <summary>Runs a system program that must exist and succeed.</summary>
    public static async Task<string> Run(string program, params string[] arguments)
    {
        var run = await Tool.Run(Find(program) ?? program, arguments);
        return run.ExitCode == 0 ? run.Out.Trim()
            : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)}: exit code {run.ExitCode}: {run.Err.Trim()}");
    }

    private static string? Find(string program) => Folders.Select(f => Path.Combine(f, program)).FirstOrDefault(File.Exists);
}
