using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>A small shop's own certificates: made by the commands, judged by openssl; and what openssl made, shown.</summary>
public abstract class CertificateCommandTests(Build build) : OnBothBuilds(build), IDisposable
{
    private const string Service =
        "stockseat certificate issue cell-server --for service --host cell-server --host 192.0.2.7 --host 2001:db8::7 --authority ca --out tls\n";

    private const string Client = "stockseat certificate issue lathe-4 --for client --uri urn:cell-2:lathe-4 --authority ca --out tls\n";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-certificates-");

    public sealed class Ordinary() : CertificateCommandTests(Build.Ordinary);

    public sealed class Native() : CertificateCommandTests(Build.Native);

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Openssl_verifies_what_was_issued_for_its_use_and_no_other()
    {
        await Shell($"stockseat certificate authority --out ca --name 'Line 2'\n{Service}{Client}");

        var said = await Shell(
            """
            openssl verify -x509_strict -CAfile ca/authority.pem -purpose sslserver -verify_hostname cell-server tls/cell-server.pem
            openssl verify -x509_strict -CAfile ca/authority.pem -purpose sslserver -verify_ip 192.0.2.7 tls/cell-server.pem
            openssl verify -x509_strict -CAfile ca/authority.pem -purpose sslserver -verify_ip 2001:db8::7 tls/cell-server.pem
            openssl verify -x509_strict -CAfile ca/authority.pem -purpose sslclient -verify_hostname lathe-4 tls/lathe-4.pem
            ! openssl verify -CAfile ca/authority.pem -purpose sslclient tls/cell-server.pem
            ! openssl verify -CAfile ca/authority.pem -purpose sslserver tls/lathe-4.pem
            ! openssl verify -CAfile ca/authority.pem -verify_hostname other tls/cell-server.pem
            """);

        Assert.Equal(3, Count(said.Out, "tls/cell-server.pem: OK"));
        Assert.Equal(1, Count(said.Out, "tls/lathe-4.pem: OK"));
        Assert.Equal(3, Count(said.Err, "verification failed"));
    }

    [Fact]
    public async Task Openssl_reads_the_same_names_uses_and_limits_as_show_prints()
    {
        await Shell($"stockseat certificate authority --out ca --name 'Line 2'\n{Service}{Client}");

        var server = (await Shell("openssl x509 -in tls/cell-server.pem -noout -text")).Out;
        var client = (await Shell("openssl x509 -in tls/lathe-4.pem -noout -text")).Out;
        var authority = (await Shell("openssl x509 -in ca/authority.pem -noout -text")).Out;
        var shown = (await Run("show", "tls/cell-server.pem", "tls/lathe-4.pem", "ca/authority.pem", "--json")).Exits(0).Lines;

        Assert.Matches(@"Subject Alternative Name: *\n *DNS:cell-server, IP Address:192\.0\.2\.7, IP Address:2001:DB8:0:0:0:0:0:7\n", server);
        Assert.Matches(@"Subject Alternative Name: *\n *DNS:lathe-4, URI:urn:cell-2:lathe-4\n", client);
        Assert.Matches(@"Extended Key Usage: *\n *TLS Web Server Authentication\n", server);
        Assert.Matches(@"Extended Key Usage: *\n *TLS Web Client Authentication\n", client);
        Assert.All([server, client], text =>
        {
            Assert.Matches(@"Basic Constraints: critical\n *CA:FALSE\n", text);
            Assert.Matches(@"\n *X509v3 Key Usage: critical\n *Digital Signature\n", text);
            Assert.Contains("X509v3 Authority Key Identifier:", text, StringComparison.Ordinal);
        });
        Assert.Matches(@"Basic Constraints: critical\n *CA:TRUE, pathlen:0\n", authority);
        Assert.Matches(@"\n *X509v3 Key Usage: critical\n *Certificate Sign, CRL Sign\n", authority);
        Assert.All([server, client, authority], text => Assert.Contains("X509v3 Subject Key Identifier:", text, StringComparison.Ordinal));

        Assert.Equal(["service", "client", "authority"], shown.Select(s => s.GetProperty("uses")[0].GetString()));
        Assert.Equal(
            ["dns:cell-server,ip:192.0.2.7,ip:2001:db8::7", "dns:lathe-4,uri:urn:cell-2:lathe-4", ""],
            shown.Select(s => string.Join(',', s.GetProperty("names").EnumerateArray().Select(n => n.GetString()))));
        Assert.Equal(["CN=cell-server", "CN=lathe-4", "CN=Line 2"], shown.Select(s => s.GetProperty("subject").GetString()));
        Assert.All(shown, s => Assert.Equal("CN=Line 2", s.GetProperty("issuer").GetString()));
        Assert.Equal([729, 729], shown.Take(2).Select(s => s.GetProperty("daysLeft").GetInt32()));
        Assert.All(shown, s => Assert.Equal(0, s.GetProperty("advice").GetArrayLength()));
    }

    [Fact]
    public async Task The_pin_is_the_hash_of_the_public_key_that_openssl_computes_and_stays_in_a_renewal()
    {
        var made = await Shell($"stockseat certificate authority --out ca\n{Client}");
        var renewed = await Shell(
            "stockseat certificate issue lathe-4 --for client --authority ca --out tls --key tls/lathe-4.key --days 30\n"
                + "stockseat certificate issue lathe-4 --for client --authority ca --out tls --key tls/lathe-4.key");

        var pin = (await Shell("openssl x509 -in tls/lathe-4.pem -noout -pubkey | openssl pkey -pubin -outform DER | sha256sum")).Out[..64];
        Assert.Contains($"\"Clients\": [ {{ \"Name\": \"lathe-4\", \"Certificate\": \"sha256:{pin}\" }} ]", made.Out, StringComparison.Ordinal);
        Assert.Equal(2, Count(renewed.Out, $"pin          sha256:{pin}\n"));
        Assert.DoesNotContain("Clients", renewed.Out, StringComparison.Ordinal);
        Assert.Contains("tls/lathe-4-2.pem", renewed.Out, StringComparison.Ordinal);
        Assert.Contains("tls/lathe-4-3.pem", renewed.Out, StringComparison.Ordinal);
        Assert.Equal(["lathe-4-2.pem", "lathe-4-3.pem", "lathe-4.key", "lathe-4.pem"], Names("tls"));
        await Shell("openssl verify -CAfile ca/authority.pem tls/lathe-4.pem tls/lathe-4-2.pem tls/lathe-4-3.pem");

        var soon = (await Run("show", "tls/lathe-4-2.pem")).Exits(0).Out;
        Assert.Contains("advice       it ends in 29 days, and 30 days before its end is the time to renew it", soon, StringComparison.Ordinal);
        File.Move(In("tls/lathe-4-3.pem"), In("tls/lathe-4.pem"), overwrite: true);
        Assert.DoesNotContain("fault", (await Run("show", "tls/lathe-4.pem")).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Keys_are_for_their_owner_alone_and_nothing_is_overwritten()
    {
        await Shell($"umask 077\nstockseat certificate authority --out ca\numask 000\n{Service}");

        Assert.Equal("700 ca\n400 ca/authority.key\n444 ca/authority.pem\n400 tls/cell-server.key\n444 tls/cell-server.pem", (await Shell(
            "stat -c '%a %n' ca ca/* tls/*")).Out.TrimEnd());
        var before = Names("ca").Concat(Names("tls")).ToList();
        (await Run("authority", "--out", "ca")).Fails(2, "ca/authority.key already exists and is never overwritten");
        (await Run("issue", "cell-server", "--for", "service", "--host", "x", "--authority", "ca", "--out", "tls"))
            .Fails(2, "to renew with the key that exists add --key tls/cell-server.key");
        Assert.Equal(before, Names("ca").Concat(Names("tls")));

        File.Delete(In("tls/cell-server.key"));
        (await Run("issue", "cell-server", "--for", "service", "--host", "x", "--authority", "ca", "--out", "tls"))
            .Fails(2, "nothing was written: tls/cell-server.pem already exists");
        Assert.Equal(["cell-server.pem"], Names("tls"));
    }

    [Fact]
    public async Task A_certificate_that_would_outlast_its_authority_ends_with_it_and_that_is_said()
    {
        await Shell("stockseat certificate authority --out ca --years 1");

        var said = (await Run("issue", "lathe-4", "--for", "client", "--authority", "ca", "--out", "tls")).Exits(0).Out;

        Assert.Contains("It ends with its authority, before the 730 days that were asked for", said, StringComparison.Ordinal);
        var json = (await Run("issue", "lathe-5", "--for", "client", "--authority", "ca", "--out", "tls", "--json")).Exits(0).Object;
        Assert.Equal(("tls/lathe-5.pem", "tls/lathe-5.key", true), (Text(json, "certificate"), Text(json, "key"), json.GetProperty("cut").GetBoolean()));
        var ends = (await Shell("for c in ca/authority.pem tls/lathe-4.pem; do openssl x509 -in $c -noout -enddate; done")).Out.TrimEnd().Split('\n');
        Assert.Equal(ends[0], ends[1]);
    }

    [Theory]
    [InlineData("rsa:2048 -nodes -addext subjectAltName=DNS:a.example", "RSA 2048 bits", "signed by itself", "authority")]
    [InlineData("ec -pkeyopt ec_paramgen_curve:P-384 -nodes -addext basicConstraints=CA:FALSE", "EC 384 bits", "no alternative names", "service, client")]
    [InlineData("ed25519 -nodes -addext basicConstraints=CA:FALSE", "Ed25519", "which this program can't use for itself", "service, client")]
    public async Task What_openssl_made_is_shown(string key, string kind, string advice, string uses)
    {
        await Shell(
            $"openssl req -x509 -newkey {key} -keyout own.key -out own.pem -subj '/CN=elsewhere' -days 365 2>/dev/null");

        var said = (await Run("show", "own.pem")).Exits(0).Out;

        Assert.Matches($@"\nkey +{kind}\n", said);
        Assert.Matches($@"\nuses +{uses}\n", said);
        Assert.Equal(uses == "authority", !said.Contains(advice, StringComparison.Ordinal));
        var pin = (await Shell("openssl x509 -in own.pem -noout -pubkey | openssl pkey -pubin -outform DER | sha256sum")).Out[..64];
        Assert.Contains($"sha256:{pin}\n", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chain_is_shown_one_by_one_and_a_key_of_another_certificate_is_found()
    {
        await Shell(
            $"stockseat certificate authority --out ca\n{Service}{Client}"
                + "cat tls/cell-server.pem ca/authority.pem > tls/lathe-5.pem; cp tls/lathe-4.key tls/lathe-5.key");

        var said = (await Run("show", "tls/lathe-5.pem")).Exits(1).Out;

        Assert.Contains("tls/lathe-5.pem, certificate 1 of 2\n", said, StringComparison.Ordinal);
        Assert.Contains("tls/lathe-5.pem, certificate 2 of 2\n", said, StringComparison.Ordinal);
        Assert.Single(said.Split('\n'), l => l.StartsWith("fault        the key tls/lathe-5.key does not belong to it", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_authority_that_openssl_made_can_issue()
    {
        await Shell(
            $"""
            umask 077; mkdir ca
            openssl req -x509 -newkey rsa:2048 -nodes -keyout ca/authority.key -out ca/authority.pem -subj '/O=Example/CN=Ours' -days 365 2>/dev/null
            {Service}
            openssl verify -CAfile ca/authority.pem -purpose sslserver tls/cell-server.pem
            """);

        Assert.Contains("CN=Ours, O=Example", (await Run("show", "tls/cell-server.pem")).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_can_not_be_read_is_said_once_with_what_to_do()
    {
        await Shell($"stockseat certificate authority --out ca\n{Client}");
        await Shell(": > empty.pem; mkdir folder.pem; echo hello > text.pem; head -c 300 tls/lathe-4.pem > cut.pem");
        await Shell("openssl x509 -in tls/lathe-4.pem -outform DER -out binary.pem; openssl pkey -in tls/lathe-4.key -aes128 -passout pass:x -out locked.key");
        await Shell("cp tls/lathe-4.pem locked.pem; printf -- '-----BEGIN CERTIFICATE-----\\nAAAA\\n-----END CERTIFICATE-----\\n' > damaged.pem");

        (await Run("show", "tls/lathe-4.key")).Fails(2, "tls/lathe-4.key has a private key and no certificate; name the certificate's file");
        (await Run("show", "empty.pem")).Fails(2, "empty.pem is empty; a certificate in PEM (BEGIN CERTIFICATE) was expected");
        (await Run("show", "folder.pem")).Fails(2, "folder.pem is not a regular file");
        (await Run("show", "missing.pem")).Fails(2, "missing.pem does not exist; a certificate in PEM (BEGIN CERTIFICATE) was expected");
        (await Run("show", "damaged.pem")).Fails(2, "certificate 1 of damaged.pem is damaged");
        foreach (var file in (string[])["text.pem", "cut.pem", "binary.pem"])
        {
            (await Run("show", file)).Fails(2, $"{file} has no complete certificate in PEM");
        }

        var locked = (await Run("show", "locked.pem")).Exits(0).Out;
        Assert.Contains("could not be checked: the key locked.key is encrypted, and Stockseat asks for no password", locked, StringComparison.Ordinal);
        var both = (await Run("show", "missing.pem", "tls/lathe-4.pem")).Exits(2);
        Assert.Contains("CN=lathe-4", both.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_authority_that_can_not_sign_is_refused_with_the_reason()
    {
        await Shell($"stockseat certificate authority --out ca\nstockseat certificate authority --out other\n{Client}");
        await Shell(
            """
            mkdir open client wrong locked two
            cp ca/* open; chmod 444 open/authority.key
            cp tls/lathe-4.pem client/authority.pem; cp tls/lathe-4.key client/authority.key
            cp ca/authority.pem wrong; cp other/authority.key wrong
            cp ca/authority.pem locked; (umask 077; openssl pkey -in ca/authority.key -aes128 -passout pass:x -out locked/authority.key)
            cp ca/authority.key two; cat ca/authority.pem other/authority.pem > two/authority.pem
            """);

        foreach (var (folder, said) in ((string, string)[])
        [
            ("none", "there is no authority in none: it has no authority.pem"), ("open", "can be read or changed by others"),
            ("client", "is not an authority's"), ("wrong", "does not belong to the certificate wrong/authority.pem"), ("locked", "is encrypted"),
            ("two", "has 2 certificates, and one was expected"),
        ])
        {
            (await Run("issue", "lathe-9", "--for", "client", "--authority", folder, "--out", "new")).Fails(2, said);
        }

        Assert.False(Directory.Exists(In("new")));
        (await Run("issue", "lathe-9", "--for", "client", "--authority", "ca", "--out", "tls/lathe-4.pem"))
            .Fails(2, "nothing was written: tls/lathe-4.pem is a file, and a folder was expected; name another folder");
    }

    [Theory]
    [InlineData("issue cell-server --for service --authority ca --out tls", "--host is missing")]
    [InlineData("issue lathe-4 --for client --host lathe-4 --authority ca --out tls", "--host is for a service's certificate")]
    [InlineData("issue cell-server --for service --host cell-server:28610 --authority ca --out tls", "--host: cell-server:28610 is not an address")]
    [InlineData("issue cell-server --for service --host x --uri urn:x --authority ca --out tls", "--uri is for a client's certificate")]
    [InlineData("issue lathe_4 --for client --authority ca --out tls", "NAME is 'lathe_4'; 1 to 40 letters, digits, hyphens and points")]
    [InlineData("issue lathe-4 --for cleint --authority ca --out tls", "--for is 'cleint'; service or client was expected; did you mean 'client'?")]
    [InlineData("issue lathe-4 --authority ca --out tls", "--for service|client is missing")]
    [InlineData("issue lathe-4 --for client --out tls", "--authority DIR is missing")]
    [InlineData("issue lathe-4 --for client --authority ca", "--out DIR is missing")]
    [InlineData("issue lathe-4 --for client --uri /x --authority ca --out tls", "--uri: '/x' is not a complete URI")]
    [InlineData("issue lathe-4 --for client --file ../x --authority ca --out tls", "--file is '../x'")]
    [InlineData("issue lathe-4 --for client --days 0 --authority ca --out tls", "--days: '0' is not a number of days; a whole number from 1 to 3650")]
    [InlineData("authority --out ca --years 31", "--years: '31' is not a number of years; a whole number from 1 to 30")]
    [InlineData("authority", "--out DIR is missing")]
    [InlineData("show", "FILE is missing after 'stockseat certificate show'")]
    public async Task Wrong_usage_is_named_and_nothing_is_written(string line, string said)
    {
        (await Run(line.Split(' '))).Fails(64, said);

        Assert.Empty(_folder.EnumerateFileSystemInfos());
    }

    private static int Count(string text, string part) => text.Split(part).Length - 1;

    private static string Text(JsonElement json, string name) => json.GetProperty(name).GetString()!;

    private string In(string name) => Path.Combine(_folder.FullName, name);

    private IEnumerable<string> Names(string folder) => Directory.GetFiles(In(folder)).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal);

    private async Task<Run> Shell(string script) => (await OpenSsl.Shell(Program, _folder.FullName, script)).Exits(0);

    private Task<Run> Run(params string[] words) => Tool.Run(Program.Path, ["certificate", .. words], _folder.FullName);
}
