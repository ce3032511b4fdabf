
namespace Stockseat.EndToEnd.Support;

/// <summary>Runs clients in JavaScript, and tools of tests/node; a test that needs them is skipped, with the reason, if they are not installed.</summary>
internal static class Node
{
    /// <summary>The exit code of the page check when there is no browser.</summary>
    private const int NoBrowser = 3;

    private static readonly string Modules = Path.Combine(Repository.Root, "tests", "node", "node_modules");

    /// <summary>Runs a client from the clients' folder.</summary>
    public static Task<Run> Run(string client, params string[] arguments) => Start(Path.Combine(Repository.Clients, client), arguments);

    /// <summary>Runs a client that needs a browser, in one that is named.</summary>
    /// <param name="browser">chromium or firefox.</param>
    /// <param name="client">The client.</param>
    /// <param name="arguments">Its arguments.</param>
    public static async Task<Run> BrowseIn(string browser, string client, params string[] arguments)
    {
        var run = await Start(Path.Combine(Repository.Clients, client), arguments, ("BROWSER", browser));
        Assert.SkipWhen(run.ExitCode == NoBrowser, $"{browser} is not installed: {run.Err.Trim()}");
        return run;
    }

    /// <summary>Runs the linter of .proto files on a folder.</summary>
    public static Task<Run> Lint(string folder) => Start(Path.Combine(Modules, "@bufbuild", "buf", "bin", "buf"), ["lint", folder]);

    /// <summary>Checks a page with <c>clients/check_page.js</c>.</summary>
    /// <param name="file">The page.</param>
    public static Task<Run> Check(string file) => Browse("check_page.js", file);

    /// <summary>Runs a client that needs a browser.</summary>
    public static Task<Run> Browse(string client, params string[] arguments) => BrowseIn("chromium", client, arguments);

    private static async Task<Run> Start(string script, string[] arguments, params (string Name, string Value)[] environment)
    {
        // Written last, when everything is there.
        Assert.SkipUnless(
            File.Exists(Path.Combine(Modules, ".package-lock.json")), "the packages of tests/node are not installed: run tests/run, or npm ci there");
        try
        {
            return await Tool.Run("node", [script, .. arguments], folder: null, environment);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("node is not installed");
            throw;
        }
    }
}
