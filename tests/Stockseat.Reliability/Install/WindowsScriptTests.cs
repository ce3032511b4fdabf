using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>The scripts for Windows, as far as they can be checked on other systems.</summary>
public class WindowsScriptTests
{
    private const string Parse = """
        $tokens = $null; $errors = $null
        $null = [Management.Automation.Language.Parser]::ParseFile($args[0], [ref] $tokens, [ref] $errors)
        $errors | ForEach-Object { "$($_.Extent.StartLineNumber): $($_.Message)" }
        """;

    [Theory]
    [InlineData("install.ps1")]
    [InlineData("acceptance.ps1")]
    public async Task Script_HasNoSyntaxError(string name)
    {
        using var folder = new Cell();
        var script = Path.Combine(Repository.Root, "install", "windows", name);

        Assert.Empty(await Faults(folder, script));
        Assert.NotEmpty(await Faults(folder, folder.Write("broken.ps1", await File.ReadAllTextAsync(script) + "\nif ($true) {")));
    }

    [Theory]
    [InlineData("install.ps1")]
    [InlineData("acceptance.ps1")]
    public async Task Script_OnAnotherSystem_SaysSoAndDoesNothing(string name)
    {
        Needs.Pwsh();
        using var folder = new Cell();
        string[] arguments = ["-NoProfile", "-NonInteractive", "-File", Path.Combine(Repository.Root, "install", "windows", name), folder.Folder,
            folder.Folder];
        (await Tool.Run("pwsh", arguments)).Fails(2, "runs on Windows only");
    }

    /// <summary>What nobody could try without Windows is a list that a person can tick off: it may not shrink unseen.</summary>
    [Fact]
    public void AcceptanceScript_TriesEachPartOfTheServicesLife()
    {
        var script = File.ReadAllText(Path.Combine(Repository.Root, "install", "windows", "acceptance.ps1"));
        Assert.All(
            ["second time changes nothing", "virtual account", "answers in lines", "over gRPC", "second service", "process was ended", "within 8 s",
                "is intact",
                "in the event log", "upgrades while it runs", "leaves nothing"],
            part => Assert.Contains(part, script, StringComparison.Ordinal));
    }

    [Fact]
    public void InstallScript_KeepsDebuggersOutOfTheService()
    {
        var script = File.ReadAllText(Path.Combine(Repository.Root, "install", "windows", "install.ps1"));
        Assert.Contains("$quiet = 'DOTNET_EnableDiagnostics=0'", script, StringComparison.Ordinal);
        Assert.Contains("New-ItemProperty -LiteralPath $registered -Name 'Environment' -PropertyType MultiString", script, StringComparison.Ordinal);
    }

    [Fact]
    public void InstallScript_TakesTheEventTextsFromWindows()
    {
        var script = File.ReadAllText(Path.Combine(Repository.Root, "install", "windows", "install.ps1"));
        Assert.Contains(@"$texts = '%SystemRoot%\Microsoft.NET\Framework64\v4.0.30319\EventLogMessages.dll'", script, StringComparison.Ordinal);
        Assert.Contains("New-ItemProperty -LiteralPath $source -Name 'EventMessageFile' -PropertyType ExpandString -Value $texts", script,
            StringComparison.Ordinal);
    }

    private static async Task<string> Faults(Cell folder, string script)
    {
        Needs.Pwsh();
        return (await Tool.Run("pwsh", ["-NoProfile", "-NonInteractive", "-File", folder.Write("parse.ps1", Parse), script])).Exits(0).Out.Trim();
    }
}
