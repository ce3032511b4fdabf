using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Fixtures.Revisions;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Proving;

/// <summary>A fixture as prove_fixtures.py simulated it, with a file that is right and one that has a mistake.</summary>
internal sealed record SimulatedProof
{
    private static readonly JsonSerializerOptions Options = new() { PropertyNameCaseInsensitive = true };

    public required string Mistake { get; init; }

    /// <summary>The limit of a recheck, in metres.</summary>
    public required double Limit { get; init; }

    /// <summary>The largest move of a nest by the mistake, at any diameter of the range, in metres; null: the file knows no seat for one of them.</summary>
    public double? Moved { get; init; }

    public required JsonObject Right { get; init; }

    public required JsonObject Wrong { get; init; }

    /// <summary>The recipe with two masters that differ by exactly a fifth of the range.</summary>
    public required SimulatedRecheck[] LeastApart { get; init; }

    /// <summary>The recipe with two masters within a twentieth of the ends of the range.</summary>
    public required SimulatedRecheck[] NearTheEnds { get; init; }

    /// <summary>The same for the right file.</summary>
    public required SimulatedRecheck[] OfTheRightFile { get; init; }

    /// <summary>Whether a mistake moves a nest by more than that many times the limit.</summary>
    public bool MovesMoreThan(double limits) => Moved is not { } metres || metres > limits * Limit;

    public static RevisionFile File(JsonObject content) => Revisions.File(1, content.ToJsonString(), $"{content["fixture"]}/r0001.json");

    /// <summary>Runs the simulation.</summary>
    public static async Task<SimulatedProof[]> Run(int seed, int count)
    {
        var start = new ProcessStartInfo(System.IO.File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3")
            { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in new[] { "-B", Path.Combine(Repository.Clients, "prove_fixtures.py"), Text(seed), Text(count) })
        {
            start.ArgumentList.Add(argument);
        }

        try
        {
            using var process = Process.Start(start)!;
            var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            Assert.Equal(0, await process.Ends("prove_fixtures.py"));
            Assert.Equal("", await errors.Within("the end of stderr"));
            return [.. (await output.Within("the end of stdout")).Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(l => JsonSerializer.Deserialize<SimulatedProof>(l, Options)!)];
        }
        catch (Win32Exception)
        {
            Assert.Skip("python3 is not installed");
            throw;
        }
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A recheck of the recipe.</summary>
/// <param name="Nest">The nest: column, row.</param>
/// <param name="Master">The master's diameter, in metres.</param>
/// <param name="Found">Where its centre truly is, in base, in metres; null: the fixture has no such nest.</param>
/// <param name="Apart">How far that is from where the file says, in metres; null: there is no such nest, or the file knows no seat.</param>
internal sealed record SimulatedRecheck(int[] Nest, double Master, double[]? Found, double? Apart);
