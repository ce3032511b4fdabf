using Microsoft.Extensions.Time.Testing;

namespace Stockseat.Tests.Support.Clocks;

/// <summary>Time that passes while a service is working.</summary>
internal static class Passing
{
    /// <summary>
    /// Lets time pass on a thread other than the test's. Moving a clock runs, at once and on the same thread, everything that waited for that moment. If that
    /// hung, the test would hang with it and none of its own limits could take effect.
    /// </summary>
    public static Task Pass(this FakeTimeProvider time, TimeSpan by, TimeSpan? limit = null) =>
        Task.Run(() => time.Advance(by)).Within($"the return of everything that waited for the clock, moved on by {by.TotalSeconds:0.###} s,", limit);
}
