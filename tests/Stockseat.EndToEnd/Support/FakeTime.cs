namespace Stockseat.EndToEnd.Support;

/// <summary>Sets the clock of a single process.</summary>
internal static class FakeTime
{
    private static readonly string[] Libraries =
        ["/usr/lib/x86_64-linux-gnu/faketime/libfaketimeMT.so.1", "/usr/lib/aarch64-linux-gnu/faketime/libfaketimeMT.so.1"];

    /// <summary>The path of the library; null: it is not installed.</summary>
    public static string? Library => Libraries.FirstOrDefault(File.Exists);
}
