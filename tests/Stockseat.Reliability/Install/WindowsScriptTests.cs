using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>The script for Windows, as far as it can be checked on other systems: its syntax.</summary>
public class WindowsScriptTests
{
    private const string Parse = """
        $tokens = $null; $errors = $null
        $null = [Management.Automation.Language.Parser]::ParseFile($args[0], [ref] $tokens, [ref] $errors)
        $errors | ForEach-Object { "$($_.Extent.StartLineNumber): $($_.Message)" }
        """;

    [Fact]
    public async Task InstallScript_HasNoSyntaxError()
    {
        using var folder = new Cell();
        var script = Path.Combine(Repository.Root, "install", "windows", "install.ps1");

        Assert.Empty(await Faults(folder, script));
        Assert.NotEmpty(await Faults(folder, folder.Write("broken.ps1", await File.ReadAllTextAsync(script) + "\nif ($true) {")));
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
