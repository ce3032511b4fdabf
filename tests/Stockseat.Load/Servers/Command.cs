using System.Diagnostics;
using System.Globalization;

namespace Stockseat.Load.Servers;

/// <summary>A program that ran to its end, and what that took.</summary>
/// <param name="Took">By the clock.</param>
/// <param name="ProcessorTime">User and system, of all its threads.</param>
/// <param name="MostMegabytes">The largest resident memory, in MB of 10⁶ bytes, as far as it was sampled.</param>
/// <param name="Output">What it printed.</param>
internal sealed record Command(TimeSpan Took, TimeSpan ProcessorTime, double MostMegabytes, string Output)
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromMilliseconds(100);

    /// <summary>Runs a program; no other child process may end meanwhile.</summary>
    /// <exception cref="InvalidOperationException">It failed.</exception>
    public static async Task<Command> Run(string program, IEnumerable<string> arguments, CancellationToken token)
    {
        var (begun, before) = (Stopwatch.GetTimestamp(), Native.ProcessorTimeOfEnded());
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        try
        {
            var (output, error) = (process.StandardOutput.ReadToEndAsync(token), process.StandardError.ReadToEndAsync(token));
            var (exit, most) = (process.WaitForExitAsync(token), 0.0);
            while (await Task.WhenAny(exit, Task.Delay(LookEvery, token)) != exit)
            {
                most = Math.Max(most, Peak(process.Id));
            }

            await exit;
            var took = Stopwatch.GetElapsedTime(begun);
            return process.ExitCode == 0
                ? new(took, Native.ProcessorTimeOfEnded() - before, most, await output)
                : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}: {await error} {await output}");
        }
        catch
        {
            process.Kill(entireProcessTree: true);
            throw;
        }
    }

    private static double Peak(int process)
    {
        const string key = "VmHWM:";
        try
        {
            var line = File.ReadLines($"/proc/{process}/status").FirstOrDefault(l => l.StartsWith(key, StringComparison.Ordinal));
            return line is null ? 0 : long.Parse(line[key.Length..].Replace("kB", "", StringComparison.Ordinal), CultureInfo.InvariantCulture) * 1024 / 1e6;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return 0; // It ended just now.
        }
    }
}
