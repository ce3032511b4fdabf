using System.Diagnostics;
using System.Text.Json;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd.Support;

/// <summary>The result of a program that ran to its end.</summary>
internal sealed record Run(int ExitCode, string Out, string Err)
{
    /// <summary>Standard output as JSON Lines.</summary>
    public IReadOnlyList<JsonElement> Lines =>
        [.. Out.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonSerializer.Deserialize<JsonElement>(l))];

    /// <summary>Standard output as one JSON object.</summary>
    public JsonElement Object => Assert.Single(Lines);

    /// <summary>The run, when it ended as expected.</summary>
    public Run Exits(int code)
    {
        Assert.True(ExitCode == code, $"the exit code is {ExitCode}, {code} was expected\nstdout: {Out}\nstderr: {Err}");
        return this;
    }

    /// <summary>The run, when it was refused or failed: nothing on standard output, and a reason on standard error.</summary>
    public Run Fails(int code, string said)
    {
        Exits(code);
        Assert.Empty(Out);
        Assert.Contains(said, Err, StringComparison.Ordinal);
        return this;
    }
}

/// <summary>Runs programs.</summary>
internal static class Tool
{
    /// <summary>Where a program runs unless another folder is given.</summary>
    public static string Folder { get; } = Path.TrimEndingDirectorySeparator(Path.GetTempPath());

    public static Task<Run> Run(string program, IEnumerable<string> arguments, string? folder = null, params (string Name, string Value)[] environment) =>
        RunFor(Deadline.Usual, program, arguments, folder, environment);

    /// <summary>The same with another time limit.</summary>
    public static async Task<Run> RunFor(
        TimeSpan limit, string program, IEnumerable<string> arguments, string? folder = null, params (string Name, string Value)[] environment)
    {
        using var process = Start(program, arguments, folder, environment);
        try
        {
            var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            var code = await process.Ends($"{program} {string.Join(' ', arguments)}", limit);
            return new(code, await output.Within("the end of stdout"), await error.Within("the end of stderr"));
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
            }
        }
    }

    public static Process Start(string program, IEnumerable<string> arguments, string? folder = null, params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo(program)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder ?? Folder,
        };
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        // A developer's own settings must not affect a test.
        foreach (var name in start.Environment.Keys.Where(k => k.StartsWith("STOCKSEAT_", StringComparison.Ordinal)).ToList())
        {
            start.Environment.Remove(name);
        }

        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return Process.Start(start)!;
    }
}
