using Stockseat.Plant.Forwarding;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Board;

/// <summary>The plant store on the board. No answer depends on it.</summary>
public static class PlantLines
{
    /// <summary>Entries that wait for longer than this matter.</summary>
    private static readonly TimeSpan Long = TimeSpan.FromMinutes(1);

    /// <summary>The lines.</summary>
    /// <param name="state">How sending goes.</param>
    /// <param name="waiting">How many entries wait to be sent.</param>
    /// <param name="since">For how long; null: not every entry was stored since the start.</param>
    public static IEnumerable<BoardLine> Of(ForwardingState state, long waiting, TimeSpan? since)
    {
        var reached = state.Connected ? "reached" : state.Cause is { } cause ? $"not reached, and answers go on: {cause}" : "not tried yet";
        var waits = waiting == 0 ? "every entry is stored"
            : $"{PrintedNumbers.Count(waiting, "entry waits", "entries wait")}{(since is { } time ? $", all were stored {AgeText.Of(time)} ago" : "")}";
        yield return new("Plant store", $"{reached}; {waits}", !state.Connected || (waiting > 0 && !(since < Long)));
        foreach (var fault in state.Faults)
        {
            yield return new("Plant store alarm", fault, true);
        }
    }
}
