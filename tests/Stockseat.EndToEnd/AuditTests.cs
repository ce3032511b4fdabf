using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Xml.Linq;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

/// <summary>What a restore reports about packages with advisories, with our settings and a registry on loopback that has one advisory.</summary>
public sealed class AuditTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-audit-");
    private readonly TcpListener _registry = new(IPAddress.Loopback, 0);

    public AuditTests() => _registry.Start();

    public void Dispose()
    {
        _registry.Dispose();
        _folder.Delete(recursive: true);
    }

    [Theory]
    [InlineData(3, "error NU1904")]
    [InlineData(2, "error NU1903")]
    public async Task Restore_WithAHighAdvisory_Fails(int severity, string said)
    {
        var run = await Restore(severity);
        Assert.Equal(1, run.ExitCode);
        Assert.Contains(said, run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, "warning NU1902")]
    [InlineData(0, "warning NU1901")]
    public async Task Restore_WithALowAdvisory_Warns(int severity, string said) =>
        Assert.Contains(said, (await Restore(severity)).Exits(0).Out, StringComparison.Ordinal);

    [Theory]
    [InlineData(null, "warning NU1905")] // the registry has no advisories
    [InlineData(-1, "warning NU1900")] // the registry answers with a failure
    public async Task Restore_WithoutAnAnswer_Continues(int? severity, string said) =>
        Assert.Contains(said, (await Restore(severity)).Exits(0).Out, StringComparison.Ordinal);

    [Fact]
    public void Packages_ComeFromOneNamedSource()
    {
        var config = File.ReadAllText(Path.Combine(Repository.Root, "nuget.config"));
        Assert.Equal(
            ["https://api.nuget.org/v3/index.json"],
            XDocument.Parse(config).Descendants("packageSources").Elements("add").Select(e => (string)e.Attribute("value")!));
        Assert.Equal(
            ["packageSources", "packageSourceMapping", "disabledPackageSources"],
            XDocument.Parse(config).Descendants("clear").Select(c => c.Parent!.Name.LocalName));
    }

    private async Task<Run> Restore(int? severity)
    {
        var answering = Task.Run(() => Answer(severity));
        var address = $"http://{_registry.LocalEndpoint}";
        File.Copy(Path.Combine(Repository.Root, "Directory.Build.props"), Below("Directory.Build.props"));
        await File.WriteAllTextAsync(Below("Directory.Packages.props"), "<Project />");
        var sep = XDocument.Load(Path.Combine(Repository.Root, "Directory.Packages.props")).Descendants("PackageVersion")
            .Single(v => (string?)v.Attribute("Include") == "Sep");
        await File.WriteAllTextAsync(Below("one.csproj"), $"""
            <Project Sdk="Microsoft.NET.Sdk"><ItemGroup><PackageReference Include="Sep" Version="[{(string?)sep.Attribute("Version")}]" /></ItemGroup></Project>
            """);
        Directory.CreateDirectory(Below("packages"));
        await File.WriteAllTextAsync(Below("nuget.config"), $"""
            <configuration>
              <packageSources><clear /><add key="here" value="packages" /></packageSources>
              <auditSources><clear /><add key="loopback" value="{address}/index.json" protocolVersion="3" allowInsecureConnections="true" /></auditSources>
            </configuration>
            """);
        var run = await Tool.Run(
            "dotnet", ["restore", "one.csproj", "-nodeReuse:false"], _folder.FullName,
            ("CI", ""), ("NUGET_HTTP_CACHE_PATH", Below("cache")), ("DOTNET_CLI_UI_LANGUAGE", "en"), ("NUGET_ENHANCED_MAX_NETWORK_TRY_COUNT", "1"),
            ("MSBUILDDISABLENODEREUSE", "1"));
        _registry.Stop();
        await answering.Within("the end of the registry");
        return run;
    }

    /// <summary>A registry of three pages: its index, its list of advisory pages, and one page.</summary>
    private async Task Answer(int? severity)
    {
        try
        {
            while (true)
            {
                using var client = await _registry.AcceptTcpClientAsync();
                using var reader = new StreamReader(client.GetStream(), Encoding.ASCII, leaveOpen: true);
                var asked = (await reader.ReadLineAsync())!.Split(' ')[1];
                while (await reader.ReadLineAsync() is { Length: > 0 })
                {
                }

                var text = Page(asked, $"http://{_registry.LocalEndpoint}", severity);
                var status = text is null ? "500 Failed" : "200 OK";
                await client.GetStream().WriteAsync(
                    Encoding.UTF8.GetBytes(
                        $"HTTP/1.1 {status}\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: "
                            + $"{Encoding.UTF8.GetByteCount(text ?? "")}\r\n\r\n{text}"));
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException or IOException or InvalidOperationException)
        {
            // The registry was stopped.
        }
    }

    private static string? Page(string asked, string address, int? severity) => (asked, severity) switch
    {
        (_, -1) => null,
        ("/index.json", null) => """{ "version": "3.0.0", "resources": [] }""",
        ("/index.json", _) => $$"""{ "version": "3.0.0", "resources": [ { "@id": "{{address}}/advisories.json", "@type": "VulnerabilityInfo/6.7.0" } ] }""",
        ("/advisories.json", _) => $$"""[ { "@name": "base", "@id": "{{address}}/base.json", "@updated": "2026-01-01T00:00:00Z" } ]""",
        ("/base.json", _) => $$"""{ "sep": [ { "severity": {{severity}}, "url": "https://advisories.example/1", "versions": "(, 1000.0.0)" } ] }""",
        _ => null,
    };

    private string Below(string name) => Path.Combine(_folder.FullName, name);
}
