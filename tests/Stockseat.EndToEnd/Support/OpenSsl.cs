namespace Stockseat.EndToEnd.Support;

/// <summary>Runs shell commands that need openssl; a test that needs it is skipped, with the reason, where there is none.</summary>
internal static class OpenSsl
{
    /// <summary>Runs commands in a folder; in them, stockseat is the program under test.</summary>
    /// <param name="program">The program.</param>
    /// <param name="folder">The current folder.</param>
    /// <param name="script">The commands.</param>
    /// <param name="server">The service that stockseat asks; null: the script names a service, or a folder.</param>
    public static async Task<Run> Shell(Built program, string folder, string script, string? server = null)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "these commands are for a POSIX shell");
        Assert.SkipUnless(
            (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(p => File.Exists(Path.Combine(p, "openssl"))),
            "openssl is not installed");
        var preamble = $"set -e -o pipefail\nstockseat() {{ \"$PROGRAM\" \"$@\"{(server is null ? "" : $" --server {server}")}; }}\n";
        return await Tool.Run("bash", ["-c", preamble + script], folder, ("PROGRAM", program.Path));
    }
}
