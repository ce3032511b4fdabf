using System.Text.Json;
using System.Text.RegularExpressions;
using Json.Schema;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

/// <summary>What a configuration may say of certificates.</summary>
public sealed class TlsSettingsTests : IDisposable
{
    private const string Tls = """ "Tls": { "Certificate": "a.pem", "Key": "a.key" } """;

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Config, "stockseat.schema.json")));

    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-settings-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    public static TheoryData<string, string, bool> Faulty => new()
    {
        { """{ "Listen": { "Grpc": "0.0.0.0:28610" } }""", "Listen:Grpc: is \"0.0.0.0:28610\"; a loopback address (127.0.0.0/8 or [::1]) was "
            + "expected: without a certificate gRPC may only listen on its own machine; state one under Tls", true },
        { """{ "Listen": { "LineTls": "127.0.0.1:1" } }""", "Listen:LineTls: is \"127.0.0.1:1\", but there is no certificate; state one under Tls", true },
        { """{ "Tls": { "Certificate": "a.pem" } }""", "Tls:Key: is missing", true },
        { """{ "Tls": { "Key": "a.key" } }""", "Tls:Certificate: is missing", true },
        { """{ "Tls": { "Certificate": "a.pem", "Key": "a.key", "Password": "b" } }""", "Tls.Password: is not a key that belongs here", true },
        { $$"""{ {{Tls}}, "AllowedHosts": [ "a b" ] }""", "AllowedHosts[0]: is \"a b\"; the name of a host", false },
        { """{ "Clients": [ { "Name": "a", "Roles": [] } ] }""", "Clients[0].From", true },
        { """{ "Clients": [ { "Name": "a", "Roles": [], "Certificate": "dns:a" } ] }""", "Clients[0].Certificate: can't be shown: there is no TLS", false },
        { $$"""{ {{Tls}}, "Clients": [ { "Name": "a", "Roles": [], "Certificate": "dns:a" } ] }""", "a name, and nobody vouches for names", false },
        { $$"""{ {{Tls}}, "Clients": [ { "Name": "a", "Roles": [], "Certificate": "sha256:12" } ] }""", "is \"sha256:12\"; a pin (sha256: and 64", true },
    };

    [Theory]
    [MemberData(nameof(Faulty))]
    public void What_can_not_be_meant_is_a_fault(string text, string said, bool schemaFinds)
    {
        var fault = Assert.Single(Read(text).Faults);

        Assert.Contains(said, fault, StringComparison.Ordinal);
        Assert.Equal(!schemaFinds, Passes(text));
    }

    [Fact]
    public void The_example_of_the_documents_is_sound_and_its_client_without_addresses_may_come_from_anywhere()
    {
        var page = File.ReadAllText(Path.Combine(Repository.Config, "README.md"));
        var example = Regex.Match(page, "```json tested by TlsSettingsTests\n(?<json>.*?)\n```", RegexOptions.Singleline).Groups["json"].Value;

        var settings = Read(example).Settings!;

        Assert.True(Passes(example));
        Assert.Equal((false, "0.0.0.0:28613", Path.Combine(_folder, "tls", "service.pem")),
            (settings.Reflection, $"{settings.LineTls}", settings.Tls!.Certificate));
        Assert.Equal(["0.0.0.0/0", "::/0"], settings.Clients[1].From.Select(n => $"{n}"));
    }

    [Fact]
    public void An_entry_that_can_never_match_and_lines_by_address_are_told()
    {
        var settings = Read($$"""
            { {{Tls}}, "Listen": { "Line": "0.0.0.0:28611" }, "Clients": [
              { "Name": "wide", "Roles": [], "From": [ "10.0.0.0/8" ] },
              { "Name": "hidden", "Roles": [], "From": [ "10.20.0.0/16" ], "Certificate": "sha256:{{new string('0', 64)}}" },
              { "Name": "seen", "Roles": [], "From": [ "10.20.0.0/16", "fd00::/8" ], "Certificate": "sha256:{{new string('1', 64)}}" } ] }
            """).Settings!;

        var advice = CallerAdvice.Of(settings).ToList();

        Assert.Equal(2, advice.Count);
        Assert.StartsWith("Listen:Line (0.0.0.0:28611) answers other machines by their addresses alone.", advice[0], StringComparison.Ordinal);
        Assert.StartsWith("Clients:1 (hidden) is never matched: client wide before it", advice[1], StringComparison.Ordinal);
        Assert.Empty(CallerAdvice.Of(Read("{}").Settings!));
    }

    [Fact]
    public void The_variables_of_callers_say_nothing_about_a_service()
    {
        var environment = new[] { "STOCKSEAT_SERVER", "STOCKSEAT_AUTHORITY", "STOCKSEAT_CERTIFICATE", "STOCKSEAT_KEY" }.ToDictionary(n => n, _ => "x");

        Assert.Empty(SettingsReader.Read(new(null), environment).Faults);
    }

    private SettingsReading Read(string text)
    {
        var file = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(file, text);
        return SettingsReader.Read(new(file), new Dictionary<string, string>());
    }

    private static bool Passes(string text)
    {
        using var file = JsonDocument.Parse(text);
        return Schema.Evaluate(file.RootElement).IsValid;
    }
}
