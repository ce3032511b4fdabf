namespace Stockseat.Service.Tests.Support;

/// <summary>The demo's files as they lie in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Config { get; } = Path.Combine(Root, "config");

    public static string Fixtures { get; } = Path.Combine(Config, "fixtures");

    public static string Pins { get; } = File.ReadAllText(Path.Combine(Fixtures, "pinbed-1", "r0003.json"));

    /// <summary>The text with one place in it changed; the place has to be there exactly once.</summary>
    public static string Edit(string text, string old, string @new)
    {
        var at = text.IndexOf(old, StringComparison.Ordinal);
        Assert.True(at >= 0, $"not in the file: {old}");
        Assert.True(text.IndexOf(old, at + 1, StringComparison.Ordinal) < 0, $"more than once in the file: {old}");
        return text[..at] + @new + text[(at + old.Length)..];
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Stockseat.slnx")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("the tests run below the repository");
        }

        return folder;
    }
}
