using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Verifies a ledger where it lies, or asks the service to.</summary>
internal static class LedgerVerifyCommand
{
    // A key or an anchor has a few lines; whatever is longer is another file.
    private const int LongestText = 64 * 1024;

    private static readonly Option<string[]> Against = new("--against")
    {
        HelpName = "FILE", Description = "an anchor that was kept outside the machine, - for stdin; repeatable: finds a cut tail and an old copy put back", Arity = ArgumentArity.OneOrMore,
    };

    private static readonly Option<string[]> Keys = new("--key")
    {
        HelpName = "FILE", Description = "a public key in PEM that may have sealed, and no other; repeatable", Arity = ArgumentArity.OneOrMore,
    };

    private static readonly Option<bool> RequireSeal = new("--require-seal") { Description = "a ledger without seals, or with a long unsealed tail, is not whole" };

    private static readonly Option<long> Tail = new("--tail")
    {
        HelpName = "N", Description = "how many entries may stand after the newest seal", DefaultValueFactory = _ => VerifyOptions.UsualTail,
    };

    private static readonly Option<bool> Progress = new("--progress") { Description = "tells on stderr how far it is, also where that is no terminal; with --data" };

    public static Command Make()
    {
        var (data, server, json) = (LedgerFolder.Option(), Common.Server(), Common.Json());
        var command = new Command("verify", "walks the whole chain: 0 whole, 1 not whole, 2 could not be checked")
        {
            Against, Keys, RequireSeal, Tail, Progress, data, server, json,
        };
        command.Validators.Add(r =>
        {
            if (r.GetValue(Tail) < 0)
            {
                r.AddError($"--tail is {r.GetValue(Tail)}; 0 or a number of entries was expected");
            }
        });
        command.SetAction(async (parsed, token) =>
        {
            var (anchors, keys) = (new List<string>(), new List<string>());
            if (!await Read(parsed.GetValue(Against), "an anchor", t => Anchor.TryParse(t, out var fault) is null ? fault : null, anchors, token)
                || !await Read(parsed.GetValue(Keys), "a key", t => PublicSealKey.FromPem(t) is null ? "is no public key on P-256 in PEM" : null, keys, token))
            {
                return ExitCodes.Failed;
            }

            var asJson = parsed.GetValue(json);
            var (require, tail) = (parsed.GetValue(RequireSeal), parsed.GetValue(Tail));
            if (parsed.GetValue(data) is { } folder)
            {
                var options = new VerifyOptions
                {
                    Anchors = [.. anchors.Select(t => Anchor.TryParse(t, out _)!)], Keys = [.. keys.Select(t => PublicSealKey.FromPem(t)!)],
                    RequireSeal = require, Tail = tail, Pages = !FolderLock.IsTaken(folder),
                };
                return LedgerFolder.Try(() => VerificationView.Print(Verify(folder, options, parsed.GetValue(Progress), token).With(folder), asJson));
            }

            var request = new VerifyRequest { RequireSeal = require, Tail = tail };
            request.Anchors.AddRange(anchors);
            request.Keys.AddRange(keys);
            return await ServiceClient.Run(parsed.GetValue(server)!, async client =>
                VerificationView.Print(Of(await ServiceClient.CallLong(t => client.Ledger.VerifyAsync(request, cancellationToken: t))), asJson));
        });
        return command;
    }

    private static Verification Verify(string folder, VerifyOptions options, bool always, CancellationToken token)
    {
        using var progress = new ProgressLine(TimeProvider.System, always);
        return LedgerVerifier.Verify(folder, options with { Progress = progress.Tell }, token);
    }

    /// <summary>Reads small texts; false, with a message, when one can't be had.</summary>
    private static async Task<bool> Read(string[]? files, string what, Func<string, string?> fault, List<string> texts, CancellationToken token)
    {
        foreach (var file in files ?? [])
        {
            try
            {
                var text = file == "-" ? await Console.In.ReadToEndAsync(token)
                    : new FileInfo(file).Length > LongestText ? throw new IOException($"it has more than {LongestText} bytes")
                    : await File.ReadAllTextAsync(file, token);
                if (fault(text) is { } wrong)
                {
                    throw new IOException($"it {wrong}");
                }

                texts.Add(text);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                Console.Error.WriteLine(Plain.Text($"{(file == "-" ? "stdin" : file)} can't be read as {what}: {e.Message}"));
                return false;
            }
        }

        return true;
    }

    private static Verification Of(VerifyResponse r) => new(
        r.Entries, r.Ledger, r.HeadSerial, r.HeadHash, [.. r.Faults.Select(f => new LedgerFault(f.Serial, f.Kind, f.Text))], [.. r.Findings],
        r.Unreadable.Length == 0 ? null : r.Unreadable)
    {
        Seals = r.Seals is null ? null : new(r.Seals.Count, r.Seals.Sealed, r.Seals.Key),
    };
}
