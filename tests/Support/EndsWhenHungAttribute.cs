using System.Diagnostics;
using System.Reflection;
using Xunit.v3;

[assembly: Stockseat.Tests.Support.EndsWhenHung]

namespace Stockseat.Tests.Support;

/// <summary>
/// Ends the process of the tests, and those that it started, when a test hangs, and names the test. The runner's own time-out only asks tests to end: a test
/// that blocks its thread does not react; and the time-out does not say which test it was.
/// </summary>
[AttributeUsage(AttributeTargets.Assembly)]
internal sealed class EndsWhenHungAttribute : BeforeAfterTestAttribute
{
    /// <summary>Longer than any one test waits (see <see cref="Deadline"/>); the long forms compute for hours.</summary>
    private static readonly TimeSpan Limit =
        Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1" ? TimeSpan.FromHours(6) : TimeSpan.FromMinutes(10);

    private static readonly HungWatch Watch = new(Limit, End);

    static EndsWhenHungAttribute() => Watch.Start();

    public override void Before(MethodInfo methodUnderTest, IXunitTest test) => Watch.Begins(test.TestDisplayName);

    public override void After(MethodInfo methodUnderTest, IXunitTest test) => Watch.Ends(test.TestDisplayName);

    private static void End(string message)
    {
        foreach (var child in Children())
        {
            try
            {
                Process.GetProcessById(child).Kill(entireProcessTree: true);
            }
            catch (ArgumentException)
            {
                // The process has ended meanwhile.
            }
        }

        Environment.FailFast(message);
    }

    private static IEnumerable<int> Children() =>
        OperatingSystem.IsLinux()
            ? Directory.EnumerateDirectories("/proc/self/task").Select(t => Path.Combine(t, "children")).Where(File.Exists)
                .SelectMany(f => File.ReadAllText(f).Split(' ', StringSplitOptions.RemoveEmptyEntries)).Select(int.Parse).ToList()
            : [];
}
