using System.ComponentModel;
using System.Diagnostics;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Verifying;

/// <summary>A verifier without any code of this one, in another language and with another signature library, comes to the same verdicts.</summary>
public sealed class SecondVerifierTests
{
    [Fact]
    public async Task The_second_verifier_finds_the_same_in_an_intact_ledger_and_in_changed_ones()
    {
        var ledger = await SealedLedger.Get();
        var last = ledger.Bodies.Count;
        var changes = new Dictionary<string, Action<LedgerCopy>>
        {
            ["nothing"] = _ => { },
            ["a row gone"] = c => c.Sql("DELETE FROM entry WHERE serial = 4"),
            ["a body edited"] = c => c.Sql("UPDATE entry SET body = replace(body, '0.09', '0.08') WHERE serial = 3"),
            ["a column"] = c => c.Sql("UPDATE entry SET tag = '8' WHERE serial = 3"),
            ["chained anew"] = c => c.Rechain(ledger.Bodies.Select((b, i) => i == 2 ? LedgerCopy.With(b, ("note", "edited")) : b)),
            ["sealed anew"] = c => c.Rechain(ledger.Bodies.Select((b, i) => i == 2 ? LedgerCopy.With(b, ("note", "edited")) : b), ledger.Foreign),
            ["unsealed"] = c => c.Rechain(ledger.Bodies.Where((_, i) => !ledger.Seals.Contains(i + 1))),
            ["a signature"] = c => c.Rechain([.. ledger.Bodies.Take(last - 1), LedgerCopy.With(ledger.Bodies[^1], ("at", "2026-11-25T08:00:01.000000Z"))]),
            ["cut"] = c => c.Sql($"DELETE FROM entry WHERE serial > {last - 3}"),
        };
        var seen = new HashSet<string>();
        foreach (var (name, change) in changes)
        {
            using var copy = new LedgerCopy(ledger.File);
            change(copy);
            foreach (var (options, arguments) in Ways(ledger, copy))
            {
                var ours = copy.Verify(options);
                var (code, theirs) = await Run([copy.File, .. arguments]);

                Assert.True(ours.ExitCode == code, $"{name}: exit codes {ours.ExitCode} and {code}");
                Assert.Equal(ours.Faults.Select(f => $"{f.Serial} {f.Kind}").Order(), theirs.Order());
                seen.UnionWith(ours.Faults.Select(f => f.Kind));
            }
        }

        Assert.Superset(new HashSet<string>(["gap", "edited", "columns", "bad-seal", "unknown-key", "unsealed", "cut", "fork"]), seen);
    }

    private static IEnumerable<(VerifyOptions Options, string[] Arguments)> Ways(SealedLedger ledger, LedgerCopy copy)
    {
        var anchor = Path.Combine(copy.Folder, "anchor.txt");
        File.WriteAllText(anchor, ledger.Head.ToText());
        yield return (new(), []);
        yield return (new() { RequireSeal = true }, ["--require-seal"]);
        yield return (new() { Keys = [ledger.First.Public, ledger.Second.Public] },
            ["--key", ledger.PublicFile("first"), "--key", ledger.PublicFile("second")]);
        yield return (new() { Anchors = [Anchor.TryParse(File.ReadAllText(anchor), out _)!] }, ["--against", anchor]);
    }

    private static async Task<(int Code, string[] Lines)> Run(string[] arguments)
    {
        var start = new ProcessStartInfo(File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3") { RedirectStandardOutput = true,
            RedirectStandardError = true };
        start.ArgumentList.Add("-B");
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "clients", "second_verifier.py"));
        Array.ForEach(arguments, start.ArgumentList.Add);
        Assert.SkipUnless((Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(p => File.Exists(Path.Combine(p, "openssl"))),
            "the openssl command is not installed");
        try
        {
            using var process = Process.Start(start)!;
            var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            var code = await process.Ends("second_verifier.py");
            Assert.Equal("", await errors.Within("the end of stderr"));
            return (code, (await output.Within("the end of stdout")).Split('\n', StringSplitOptions.RemoveEmptyEntries));
        }
        catch (Win32Exception)
        {
            Assert.Skip("python3 is not installed");
            throw;
        }
    }
}
