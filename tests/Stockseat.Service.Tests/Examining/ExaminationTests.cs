using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Ledger.Store;
using Stockseat.Service.Configuration;
using Stockseat.Service.Examining;

namespace Stockseat.Service.Tests.Examining;

/// <summary>Whatever keeps a service from starting or answering is found, by name, with what to do.</summary>
public sealed class ExaminationTests : IDisposable
{
    private static readonly DateTimeOffset Today = new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-examined-");
    private readonly FakeTimeProvider _time = new(Today);

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void Nothing_wrong_before_the_first_start()
    {
        var found = Look();

        Assert.DoesNotContain(found, f => f.Outcome is Outcome.Fault or Outcome.Unchecked);
        Assert.Contains("the first start makes it", Of(found, "data folder").Text, StringComparison.Ordinal);
        Assert.Contains("not sealed", Of(found, "Ledger:SealKey").Text, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Below("data")));
    }

    [Fact]
    public void A_port_that_another_program_has_is_named()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();

        var fault = Of(Look($$""", "Listen": { "Grpc": "127.0.0.1:0", "Line": "{{other.LocalEndpoint}}" }"""), "Listen:Line");

        Assert.Equal(Outcome.Fault, fault.Outcome);
        Assert.Contains($"{other.LocalEndpoint} can't be used: another program listens there", fault.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_address_that_this_computer_does_not_have_is_named() =>
        Assert.Contains("no address 192.0.2.1", Of(Look(""", "Listen": { "Line": "192.0.2.1:28611" }"""), "Listen:Line").Text, StringComparison.Ordinal);

    [Fact]
    public void A_service_that_holds_the_folder_and_does_not_listen_is_told()
    {
        using var held = FolderLock.Take(Below("data"));

        Assert.All(Look().Where(f => f.About.StartsWith("Listen:", StringComparison.Ordinal)),
            f => Assert.Contains("nothing listens on", f.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_ledger_that_was_lost_is_told()
    {
        Directory.CreateDirectory(Below("data"));
        File.WriteAllText(Below("data/ledger.lost"), "it was removed\n");

        Assert.Contains("it was removed", Of(Look(), "data folder", Outcome.Fault).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_in_the_folders_place_is_told()
    {
        File.WriteAllText(Below("data"), "no folder");

        Assert.Contains("is a file", Of(Look(), "data folder", Outcome.Fault).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_that_answer_other_computers_are_told() => Assert.Contains("answers other machines by their addresses alone",
        Of(Look(""", "Listen": { "Line": "0.0.0.0:0" }"""), "clients", Outcome.Advice).Text, StringComparison.Ordinal);

    [Fact]
    public void Fixtures_that_are_not_there_are_told() =>
        Assert.Contains("there is no folder", Of(Look(fixtures: "nowhere"), "fixtures").Text, StringComparison.Ordinal);

    [Fact]
    public void A_fault_of_a_revision_is_told_with_its_file()
    {
        Directory.CreateDirectory(Below("fixtures/bed-1"));
        File.WriteAllText(Below("fixtures/bed-1/r0001.json"), "{");

        Assert.Contains("r0001.json", Of(Look(fixtures: "fixtures"), "fixture bed-1", Outcome.Fault).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_key_that_others_can_read_is_told()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "rights are other ones there");
        using var key = System.Security.Cryptography.ECDsa.Create(System.Security.Cryptography.ECCurve.NamedCurves.nistP256);
        File.WriteAllText(Below("seal.pem"), key.ExportPkcs8PrivateKeyPem());
        Mode("seal.pem", UnixFileMode.UserRead | UnixFileMode.OtherRead);
        const string Sealed = """, "Ledger": { "SealKey": "seal.pem" }""";

        Assert.Contains("can be read or changed by others", Of(Look(Sealed), "Ledger:SealKey").Text, StringComparison.Ordinal);
        Mode("seal.pem", UnixFileMode.UserRead);
        Assert.Equal(Outcome.Good, Of(Look(Sealed), "Ledger:SealKey").Outcome);
    }

    [Fact]
    public void A_configuration_that_everybody_may_write_is_told()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "rights are other ones there");
        Look();
        Mode("stockseat.json", (UnixFileMode)0b110_110_110);

        Assert.Contains("chmod o-w", Of(Examine(), "rights", Outcome.Fault).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(90, Outcome.Good, "is valid until")]
    [InlineData(20, Outcome.Advice, "it ends in")]
    [InlineData(-1, Outcome.Fault, "ended on")]
    public void The_end_of_a_certificate_is_told_in_time(int days, Outcome outcome, string said)
    {
        using var shop = new TestShop();
        shop.Issue("cell-server", TestShop.Server, from: -400, days: days).Dispose();
        _time.SetUtcNow(TimeProvider.System.GetUtcNow());
        var found = Look($$""", "Tls": { "Certificate": "{{shop.Pem("cell-server")}}", "Key": "{{shop.Key("cell-server")}}" }""");

        Assert.Contains(found.Where(f => f.About.StartsWith("Tls", StringComparison.Ordinal)),
            f => f.Outcome == outcome && f.Text.Contains(said, StringComparison.Ordinal));
    }

    private static string Fixtures => Path.Combine(Repository.Root, "config", "fixtures");

    private static Finding Of(IEnumerable<Finding> found, string about, Outcome? outcome = null) =>
        Assert.Single(found, f => f.About == about && (outcome is null || f.Outcome == outcome));

    private void Mode(string path, UnixFileMode mode)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(Below(path), mode);
        }
    }

    private string Below(string path) => Path.Combine(_folder.FullName, path);

    private List<Finding> Look(string more = "", string? fixtures = null)
    {
        var listen = more.Contains("\"Listen\"", StringComparison.Ordinal) ? "" : """, "Listen": { "Grpc": "127.0.0.1:1", "Line": "127.0.0.1:2" }""";
        File.WriteAllText(Below("stockseat.json"), $$"""
            {
              "Fixtures": "{{fixtures ?? Fixtures}}", "Data": "data",
              "Clients": [ { "Name": "bench", "From": ["127.0.0.0/8"], "Roles": ["locate"] } ]{{listen}}{{more}}
            }
            """);
        return Examine();
    }

    private List<Finding> Examine()
    {
        var reading = SettingsReader.Read(new(Below("stockseat.json")), new Dictionary<string, string>());
        Assert.Empty(reading.Faults);
        return [.. Examination.Of(reading.Settings!, Below("stockseat.json"), _time)];
    }
}
