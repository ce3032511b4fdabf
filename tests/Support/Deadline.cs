using System.Diagnostics;

namespace Stockseat.Tests.Support;

/// <summary>How long a test waits before it declares something hung, and says what. It is not a test of speed.</summary>
internal static class Deadline
{
    public static readonly TimeSpan Usual = TimeSpan.FromSeconds(60);

    /// <summary>Waits, and fails with what it waited for.</summary>
    /// <param name="task">The task to wait for.</param>
    /// <param name="what">Its name, such as "the end of the connection".</param>
    /// <param name="limit">After how long it counts as hung; null: after the usual time.</param>
    public static async Task Within(this Task task, string what, TimeSpan? limit = null)
    {
        try
        {
            await task.WaitAsync(limit ?? Usual);
        }
        catch (TimeoutException) when (!task.IsCompleted)
        {
            throw Late(what, limit);
        }
    }

    /// <inheritdoc cref="Within(Task, string, TimeSpan?)"/>
    public static async Task<T> Within<T>(this Task<T> task, string what, TimeSpan? limit = null)
    {
        await ((Task)task).Within(what, limit);
        return await task;
    }

    /// <inheritdoc cref="Within(Task, string, TimeSpan?)"/>
    public static Task Within(this ValueTask task, string what, TimeSpan? limit = null) => task.AsTask().Within(what, limit);

    /// <inheritdoc cref="Within(Task, string, TimeSpan?)"/>
    public static Task<T> Within<T>(this ValueTask<T> task, string what, TimeSpan? limit = null) => task.AsTask().Within(what, limit);

    /// <summary>Waits for something that nothing announces: checks again and again until it is true.</summary>
    /// <param name="holds">Whether it is true.</param>
    /// <param name="what">What it is.</param>
    /// <param name="between">What is done between two checks, such as letting time pass; null: a moment's wait.</param>
    /// <param name="more">What else the failure says.</param>
    /// <param name="limit">After how long it counts as hung; null: after the usual time.</param>
    public static async Task Until(
        Func<Task<bool>> holds, string what, Func<Task>? between = null, Func<string>? more = null, TimeSpan? limit = null)
    {
        var begun = Stopwatch.GetTimestamp();
        while (!await holds().Within(what, limit))
        {
            if (Stopwatch.GetElapsedTime(begun) > (limit ?? Usual))
            {
                throw Late($"{what}{(more is null ? "" : $" ({more()})")}", limit);
            }

            await (between?.Invoke() ?? Task.Delay(1));
        }
    }

    /// <inheritdoc cref="Until(Func{Task{bool}}, string, Func{Task}?, Func{string}?, TimeSpan?)"/>
    public static Task Until(Func<bool> holds, string what, Func<Task>? between = null, Func<string>? more = null, TimeSpan? limit = null) =>
        Until(() => Task.FromResult(holds()), what, between, more, limit);

    /// <summary>Waits for the end of a process.</summary>
    /// <returns>Its exit code.</returns>
    public static async Task<int> Ends(this Process process, string what, TimeSpan? limit = null)
    {
        await process.WaitForExitAsync().Within($"the end of {what}", limit);
        return process.ExitCode;
    }

    private static TimeoutException Late(string what, TimeSpan? limit) => new($"{what} did not happen within {(limit ?? Usual).TotalSeconds:0.###} s");
}
