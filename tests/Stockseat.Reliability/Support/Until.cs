using System.Diagnostics;
using Stockseat.EndToEnd.Support;

namespace Stockseat.Reliability.Support;

/// <summary>Waits for what nobody announces.</summary>
internal static class Until
{
    /// <summary>Looks again and again until it holds.</summary>
    public static async Task True(Func<Task<bool>> holds, string what)
    {
        var begun = Stopwatch.GetTimestamp();
        while (!await holds())
        {
            if (Stopwatch.GetElapsedTime(begun) > Deadline.Usual)
            {
                throw new TimeoutException($"{what} did not happen within {Deadline.Usual.TotalSeconds:0} s");
            }

            await Task.Delay(1);
        }
    }

    public static Task True(Func<bool> holds, string what) => True(() => Task.FromResult(holds()), what);
}
