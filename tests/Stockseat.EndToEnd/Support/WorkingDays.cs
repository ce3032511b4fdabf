namespace Stockseat.EndToEnd.Support;

/// <summary>One working day for all tests of a class that only read it; played when the first test needs it.</summary>
public sealed class WorkingDays : IDisposable
{
    private Task<WorkingDay>? _played;

    internal Task<WorkingDay> Get(Built program) => _played ??= WorkingDay.Play(program); // the tests of a class run one after another

    public void Dispose()
    {
        if (_played is { IsCompletedSuccessfully: true, Result: { } day })
        {
            day.Dispose();
        }
    }
}
