using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Who is answered over TLS, and what it takes to change that.</summary>
public abstract class TlsTests(Build build) : OnBothBuilds(build)
{
    private const string Push = "measured fixture=pinbed-1 diameter=92.40mm lot=A1077 gauge=bench-2";

    public sealed class Ordinary() : TlsTests(Build.Ordinary);

    public sealed class Native() : TlsTests(Build.Native);

    [Fact]
    public async Task Clients_with_certificates_do_the_job_over_both_protocols_and_the_ledger_says_who_proved_what()
    {
        using var tls = new TlsCell();
        await using var service = await Program.Serve(tls.Cell);

        (await tls.Ask(Program, service, "bench", "measured", "pinbed-1", "92.40mm", "--lot", "A1077", "--gauge", "bench-2")).Exits(0);
        var serial = (await tls.Ask(Program, service, "lathe-4", "locate", "pinbed-1", "--lot", "A1077", "--json")).Exits(0).Object
            .GetProperty("serial").GetInt64();
        using var line = await tls.Line(service, "lathe-4");
        var reply = new LineReply((await line.Ask("locate fixture=pinbed-1 lot=A1077 tag=p1"))!);

        Assert.Equal(("ok", BedPick.By), (reply.Verdict, reply["by"]));
        (await tls.Ask(Program, service, "bench", "ledger", "verify")).Exits(0);
        (await tls.Ask(Program, service, "lathe-4", "measured", "pinbed-1", "92.40mm")).Fails(1, "not-permitted: measured needs the role measure");
        await service.Terminate();
        var bodies = LedgerRows.Read(tls.Cell.Data).Select(r => r.Body).ToList();
        Assert.Equal(("lathe-4", tls.Shop.Pin("lathe-4")), Who(bodies[(int)serial - 1]));
        Assert.Equal(("lathe-4", tls.Shop.Pin("lathe-4")), Who(bodies[(int)reply.Serial - 1]));
        Assert.Equal(("bench", tls.Shop.Pin("bench")), Who(bodies.Single(b => b.GetProperty("kind").GetString() == "measurement")));
    }

    public static TheoryData<string, string> Strangers => new()
    {
        { "none", "no-client" },
        { "another authority", "certificate-authority" },
        { "self-signed", "certificate-authority" },
        { "ended", "certificate-ended" },
        { "not yet", "certificate-not-yet" },
        { "server's", "certificate-use" },
        { "unlisted", "certificate-unlisted" },
    };

    [Theory]
    [MemberData(nameof(Strangers))]
    public async Task Everybody_else_is_refused_over_both_protocols_in_words_and_counted_by_cause(string which, string cause)
    {
        using var tls = new TlsCell();
        using var others = new TestShop("Other authority");
        await using var service = await Program.Serve(tls.Cell);
        var shop = which == "another authority" ? others : tls.Shop;
        var name = which switch
        {
            "none" => null,
            "unlisted" => "stranger",
            _ => "lathe-4",
        };
        if (name is not null)
        {
            shop.Issue(
                name, which == "server's" ? TestShop.Server : TestShop.Client, from: which == "not yet" ? 1 : -10, days: which == "ended" ? -1 : 9,
                selfSigned: which == "self-signed");
        }

        var said = (await Program.Run(
        [
            "locate", "pinbed-1", "--diameter", "92.40mm", "--server", $"https://{service.Grpc}", "--authority", tls.Shop.Authority,
            .. name is null ? (string[])[] : ["--certificate", shop.Pem(name)],
        ])).Exits(1);
        using var line = await TlsLine.Connect(service.LineTls!, name is null ? null : shop.Load(name));
        var reply = await line.Ask("hello");

        Assert.StartsWith("refused: not-permitted: ", said.Err, StringComparison.Ordinal);
        Assert.StartsWith("refused class=request reason=not-permitted text=", reply, StringComparison.Ordinal);
        if (name is not null)
        {
            Assert.Contains($"CN={name}, {shop.Pin(name)}", said.Err, StringComparison.Ordinal);
            Assert.Contains($"CN={name}, {shop.Pin(name)}", reply, StringComparison.Ordinal);
        }

        var list = (await tls.Ask(Program, service, "bench", "fixture", "list")).Exits(0).Out;
        Assert.Matches($"(?m)^turned away since the start: {cause} 2$", list);
        var (_, log) = await service.Terminate();
        Assert.Contains(log, l => l.TryGetProperty("Cause", out var logged) && logged.GetString() == cause);
        Assert.DoesNotContain(LedgerRows.Read(tls.Cell.Data), r => r.Kind is "answer" or "refusal");
    }

    [Fact]
    public async Task An_entry_that_is_taken_away_takes_effect_at_the_next_start()
    {
        using var tls = new TlsCell();
        await using (var before = await Program.Serve(tls.Cell))
        {
            (await tls.Ask(Program, before, "lathe-4", "locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
            await before.Terminate();
        }

        tls.Configure(s => s["Clients"]!.AsArray().RemoveAt(0));
        await using var after = await Program.Serve(tls.Cell);

        (await tls.Ask(Program, after, "lathe-4", "locate", "pinbed-1", "--diameter", "92.40mm")).Fails(1, "is good, but no client of the configuration");
        (await tls.Ask(Program, after, "bench", "locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
    }

    [Fact]
    public async Task A_renewed_certificate_is_used_by_new_connections_while_others_go_on_and_a_bad_one_changes_nothing()
    {
        using var tls = new TlsCell();
        await using var service = await Program.Serve(tls.Cell);
        var before = tls.Shop.Pin("service");
        using var old = await tls.Line(service, "bench");
        Assert.Equal(before, old.Pin);
        Assert.StartsWith("ok ", await old.Ask(Push), StringComparison.Ordinal);

        // Clients ask all the while; none of them may notice.
        using var stop = new CancellationTokenSource();
        var asking = Task.Run(async () =>
        {
            var answers = 0;
            for (; !stop.IsCancellationRequested; answers++)
            {
                using var fresh = await tls.Line(service, "lathe-4");
                Assert.StartsWith("ok ", await fresh.Ask("locate fixture=pinbed-1 lot=A1077"), StringComparison.Ordinal);
                Assert.StartsWith("ok ", await old.Ask("status fixture=pinbed-1"), StringComparison.Ordinal);
            }

            return answers;
        });
        tls.Shop.Issue("service", TestShop.Server);
        var after = tls.Shop.Pin("service");
        await Deadline.Until(async () =>
        {
            using var fresh = await tls.Line(service, "bench");
            return fresh.Pin == after;
        }, "a connection with the new certificate");

        await File.WriteAllTextAsync(tls.Shop.Pem("service"), "no certificate");
        await Deadline.Until(
            async () =>
                (await tls.Ask(Program, service, "bench", "fixture", "list")).Out.Contains("the changed files are not used: ", StringComparison.Ordinal),
            "the list says that the changed files are not used");
        using (var still = await tls.Line(service, "bench"))
        {
            Assert.Equal(after, still.Pin);
        }

        await stop.CancelAsync();
        Assert.True(await asking.Within("the asking") > 10);
        var list = (await tls.Ask(Program, service, "bench", "fixture", "list")).Exits(0).Out;
        Assert.Contains($"certificate CN=service for service, localhost, 127.0.0.1, {after}, until ", list, StringComparison.Ordinal);
        var (code, log) = await service.Terminate();
        Assert.Equal(0, code);
        Assert.Single(log, l => l.TryGetProperty("Pin", out var pin) && pin.GetString() == after);
        Assert.Single(log, l => l.TryGetProperty("Fault", out var fault) && fault.GetString()!.Contains("has no certificate", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Whoever_calls_learns_which_side_did_not_trust_which()
    {
        using var tls = new TlsCell();
        using var others = new TestShop("Other authority");
        await using var service = await Program.Serve(tls.Cell);
        string[] list = ["fixture", "list", "--server", $"https://{service.Grpc}"];
        string[] trusting = [.. list, "--authority", tls.Shop.Authority];

        (await Program.Run(list)).Fails(2, $"this side does not trust https://{service.Grpc}: its certificate (CN=service, issued by CN=Demo authority) is not "
            + "from an authority that this machine trusts; name the right one with --authority");
        (await Program.Run([.. list, "--authority", others.Authority])).Fails(2, $"is not from the authority in {others.Authority}; name the right one");
        (await Program.Run(["fixture", "list", "--authority", tls.Shop.Authority, "--server", $"http://{service.Grpc}"])).Fails(64, "which has no TLS");
        (await Program.Run(["fixture", "list", "--server", $"http://{service.Grpc}"])).Fails(2, "no answer from http://");
        (await Program.Run(["fixture", "list", "--server", $"https://{service.Line}", "--authority", tls.Shop.Authority])).Fails(2, "TLS was not agreed on");
        (await Program.Run([.. trusting, "--key", tls.Shop.Key("bench")])).Fails(64, "no --certificate goes with it");
        (await Program.Run([.. trusting, "--certificate", tls.Shop.Pem("bench"), "--key", tls.Shop.Key("lathe-4")])).Fails(64, "is not the key of");
        (await Program.Run([.. trusting, "--certificate", "none.pem"])).Fails(64, "--certificate: none.pem ");
        (await Program.RunWith(
            [("STOCKSEAT_SERVER", $"https://{service.Grpc}"), ("STOCKSEAT_AUTHORITY", tls.Shop.Authority), ("STOCKSEAT_CERTIFICATE", tls.Shop.Pem("bench")),
                ("STOCKSEAT_KEY", tls.Shop.Key("bench"))], "fixture", "list")).Exits(0);
        (await Program.Run(["fixture", "list", "--authority", tls.Shop.Authority, "--server", $"https://localhost:{service.Grpc.Port}", "--certificate",
            tls.Shop.Pem("bench")])).Exits(0);
    }

    [Theory]
    [InlineData("verify")]
    [InlineData("review")]
    public async Task Where_a_key_is_that_of_seals_the_command_has_no_other_option_of_that_name(string command)
    {
        using var tls = new TlsCell();
        await using var service = await Program.Serve(tls.Cell);

        var help = (await Program.Run("ledger", command, "--help")).Exits(0).Out;

        Assert.Single(help.Split('\n'), l => l.TrimStart().StartsWith("--key ", StringComparison.Ordinal));
        string[] at = command == "review" ? ["--at", "1"] : [];
        (await tls.Ask(Program, service, "bench", ["ledger", command, .. at])).Exits(0); // The key lies beside the certificate.
    }

    [Fact]
    public async Task Clients_in_other_languages_do_the_job_with_certificates_that_openssl_made()
    {
        using var tls = new TlsCell();
        const string Issue = """
            openssl ecparam -name prime256v1 -genkey -noout -out o.key
            openssl req -x509 -new -key o.key -days 30 -subj "/CN=openssl authority" -addext basicConstraints=critical,CA:TRUE -out o.pem
            for name in service:serverAuth:IP:127.0.0.1 bench:clientAuth:DNS:bench; do
              IFS=: read -r who use kind value <<< "$name"
              openssl req -new -newkey rsa:2048 -nodes -keyout $who.key -subj "/CN=$who" -out $who.csr
              openssl x509 -req -in $who.csr -CA o.pem -CAkey o.key -CAcreateserial -days 20 -out $who.pem \
                -extfile <(printf 'extendedKeyUsage=%s\nsubjectAltName=%s:%s\n' $use $kind $value)
            done
            """;
        (await OpenSsl.Shell(Program, tls.Shop.Folder, Issue)).Exits(0);
        var authority = Path.Combine(tls.Shop.Folder, "o.pem");
        tls.Configure(s =>
        {
            s["Tls"]!["Authorities"] = authority;
            s["Clients"]![1]!["Certificate"] = "dns:bench";
        });
        var stubs = Path.Combine(tls.Cell.Folder, "stubs");
        string[] files = [authority, tls.Shop.Pem("bench"), tls.Shop.Key("bench")];
        JsonElement node;
        await using (var first = await Program.Serve(tls.Cell))
        {
            node = (await Node.Run("grpc_client.js", [Path.Combine(Repository.Root, "proto"), $"{first.Grpc}", .. files])).Exits(0).Object;
            await first.Terminate();
        }

        Directory.Delete(tls.Cell.Data, recursive: true); // Both clients send the same request ids.
        await using var service = await Program.Serve(tls.Cell);
        await Python.Generate(stubs);
        var python = (await Python.Run("grpc_client.py", [stubs, $"{service.Grpc}", .. files])).Exits(0).Object;

        Assert.True(node.GetProperty("verified").GetProperty("whole").GetBoolean());
        Assert.Equal("OUT_OF_RANGE", node.GetProperty("refusals").GetProperty("below").GetProperty("status").GetString());
        Assert.True(python.GetProperty("whole").GetBoolean());
        Assert.Equal("OUT_OF_RANGE", python.GetProperty("refusal").GetProperty("status").GetString());
        tls.Shop.Issue("bench", TestShop.Client); // Of the other authority: the service no longer trusts it.
        Assert.Contains("PERMISSION_DENIED", (await Python.Run("grpc_client.py", [stubs, $"{service.Grpc}", .. files])).Exits(1).Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_client_by_address_may_do_its_job_and_from_this_machine_everything_that_its_roles_allow()
    {
        using var tls = new TlsCell(byAddress: true);
        await using var service = await Program.Serve(tls.Cell);

        (await tls.Ask(Program, service, null, "measured", "pinbed-1", "92.40mm")).Exits(0);
        using var line = await tls.Line(service, null);

        Assert.Equal("ok stockseat line 2", await line.Ask("hello"));
        using var plain = await service.Connect();
        Assert.Equal("ok", (await plain.Ask("hello")).Verdict);
    }

    private static (string?, string?) Who(JsonElement body) => (body.GetProperty("client").GetString(), body.GetProperty("certificate").GetString());
}
