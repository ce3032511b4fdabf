namespace Stockseat.EndToEnd.Support;

/// <summary>How long a test waits before it calls something hung. It judges no speed.</summary>
internal static class Deadline
{
    public static readonly TimeSpan Usual = TimeSpan.FromSeconds(60);

    public static async Task<T> Within<T>(this Task<T> task, string what)
    {
        try
        {
            return await task.WaitAsync(Usual);
        }
        catch (TimeoutException)
        {
            throw new TimeoutException($"{what} did not happen within {Usual.TotalSeconds:0} s");
        }
    }
}
