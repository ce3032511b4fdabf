using System.Text.Json;

namespace Stockseat.EndToEnd.Support;

/// <summary>A working day that a script played against the service, with a clock that was set for the service's process alone.</summary>
internal sealed class WorkingDay : IDisposable
{
    private WorkingDay(Cell cell, JsonElement moments) => (Cell, Moments) = (cell, moments);

    public Cell Cell { get; }

    public string Data => Cell.Data;

    /// <summary>The instants to ask about.</summary>
    public JsonElement Moments { get; }

    /// <summary>The instant of the crash, a second after the last entry before it.</summary>
    public string Crash => Moments.GetProperty("crash").GetString()!;

    /// <summary>Plays a day; the test is skipped, with the reason, where the clock can't be set.</summary>
    /// <param name="program">The program.</param>
    /// <param name="quiet">Whether the day is one on which nothing goes wrong.</param>
    public static async Task<WorkingDay> Play(Built program, bool quiet = false)
    {
        var library = FakeTime.Library;
        Assert.SkipWhen(library is null, "libfaketime is not installed: the clock of the service's process can't be set");
        var cell = new Cell();
        try
        {
            string[] arguments = [program.Path, cell.Folder, library!, .. quiet ? ["quiet"] : (string[])[]];
            return new(cell, (await Python.Run("working_day.py", arguments)).Exits(0).Object);
        }
        catch
        {
            cell.Dispose();
            throw;
        }
    }

    /// <summary>Compares every answer with what another program computes from the exported entries.</summary>
    public async Task<JsonElement> Recompute(Built program)
    {
        var file = await Export(program);
        return await Recompute(file);
    }

    /// <summary>A new file with the day's exported entries.</summary>
    public async Task<string> Export(Built program)
    {
        var file = Path.Combine(Cell.Folder, $"{Guid.NewGuid():N}.jsonl");
        (await program.Run("ledger", "export", "--jsonl", "--data", Data, "--output", file)).Exits(0);
        return file;
    }

    /// <summary>The same for an export.</summary>
    public static async Task<JsonElement> Recompute(string file)
    {
        var run = await Python.Run("recompute.py", file);
        Assert.SkipWhen(run.Err.Contains("No module named 'mpmath'", StringComparison.Ordinal), "python3-mpmath is not installed for /usr/bin/python3");
        return run.Exits(0).Object;
    }

    public void Dispose() => Cell.Dispose();
}
