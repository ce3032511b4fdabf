using Microsoft.Extensions.Time.Testing;

namespace Stockseat.Tests.Support.Clocks;

/// <summary>Time that passes while a service is at work.</summary>
internal static class Passing
{
    /// <summary>
    /// Lets time pass on another thread than the test's. A clock that is moved runs there and then whatever waited for that moment; were that to hang, the
    /// test would hang with it and no limit of its own could strike.
    /// </summary>
    public static Task Pass(this FakeTimeProvider time, TimeSpan by, TimeSpan? limit = null) =>
        Task.Run(() => time.Advance(by)).Within($"the return of all that waited for the clock, set on by {by.TotalSeconds:0.###} s,", limit);
}
