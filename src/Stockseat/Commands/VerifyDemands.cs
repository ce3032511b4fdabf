using System.CommandLine;
using System.Text;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>What a ledger is to be held against, as its texts were read.</summary>
/// <param name="Anchors">Anchors that were kept outside the machine.</param>
/// <param name="Keys">Public keys in PEM.</param>
/// <param name="RequireSeal">Whether a ledger without seals is not whole.</param>
/// <param name="Tail">How many entries may stand after the newest seal.</param>
internal sealed record VerifyDemands(IReadOnlyList<string> Anchors, IReadOnlyList<string> Keys, bool RequireSeal, long Tail)
{
    // A key or an anchor has a few lines; whatever is longer is another file.
    private const int LongestText = 64 * 1024;

    /// <summary>For a ledger where it lies.</summary>
    public VerifyOptions For(string folder) => new()
    {
        Anchors = [.. Anchors.Select(t => Anchor.TryParse(t, out _)!)],
        Keys = [.. Keys.Select(t => PublicSealKey.FromPem(t)!)],
        RequireSeal = RequireSeal,
        Tail = Tail,
        Pages = !FolderLock.IsTaken(folder),
    };

    /// <summary>For a running service.</summary>
    public VerifyRequest Request()
    {
        var request = new VerifyRequest { RequireSeal = RequireSeal, Tail = Tail };
        request.Anchors.AddRange(Anchors);
        request.Keys.AddRange(Keys);
        return request;
    }

    /// <summary>The options that it is made of.</summary>
    internal sealed class Options
    {
        private readonly Option<string[]> _against = new("--against")
        {
            HelpName = "FILE", Description = "an anchor that was kept outside the machine, - for stdin; repeatable: finds a cut tail and an old copy put back",
            Arity = ArgumentArity.OneOrMore,
        };

        private readonly Option<string[]> _keys = new("--key")
        {
            HelpName = "FILE", Description = "a public key in PEM that may have sealed, and no other; repeatable", Arity = ArgumentArity.OneOrMore,
        };

        private readonly Option<bool> _requireSeal =
            new("--require-seal") { Description = "a ledger without seals, or with a long unsealed tail, is not whole" };

        private readonly Option<long> _tail = new("--tail")
        {
            HelpName = "N", Description = "how many entries may stand after the newest seal", DefaultValueFactory = _ => VerifyOptions.UsualTail,
        };

        /// <summary>Adds them to a command.</summary>
        public void AddTo(Command command)
        {
            foreach (var option in new Option[] { _against, _keys, _requireSeal, _tail })
            {
                command.Options.Add(option);
            }

            command.Validators.Add(r =>
            {
                if (r.GetValue(_tail) < 0)
                {
                    r.AddError($"--tail is {r.GetValue(_tail)}; 0 or a number of entries was expected");
                }
            });
        }

        /// <summary>Whether any was stated.</summary>
        public bool Stated(ParseResult parsed) =>
            parsed.GetResult(_against) is not null || parsed.GetResult(_keys) is not null || parsed.GetValue(_requireSeal);

        /// <summary>Reads the files; null, with a message, when one can't be had.</summary>
        public async Task<VerifyDemands?> Read(ParseResult parsed, CancellationToken token)
        {
            var (anchors, keys) = (new List<string>(), new List<string>());
            return await Read(parsed.GetValue(_against), "an anchor", t => Anchor.TryParse(t, out var fault) is null ? fault : null, anchors, token)
                && await Read(parsed.GetValue(_keys), "a key", t => PublicSealKey.FromPem(t) is null ? "is no public key on P-256 in PEM" : null, keys, token)
                ? new(anchors, keys, parsed.GetValue(_requireSeal), parsed.GetValue(_tail)) : null;
        }

        /// <summary>Reads small texts; false, with a message, when one can't be had.</summary>
        private static async Task<bool> Read(string[]? files, string what, Func<string, string?> fault, List<string> texts, CancellationToken token)
        {
            foreach (var file in files ?? [])
            {
                try
                {
                    var text = file == "-" ? await Console.In.ReadToEndAsync(token)
                        : Encoding.UTF8.GetString(RegularFile.Read(file, LongestText)).TrimStart('\uFEFF');
                    if (fault(text) is { } wrong)
                    {
                        throw new IOException($"{file} {wrong}");
                    }

                    texts.Add(text);
                }
                catch (Exception e) when (e is IOException or UnauthorizedAccessException)
                {
                    Console.Error.WriteLine(Plain.Text($"{(file == "-" ? "stdin" : file)} can't be taken as {what}: it {RegularFile.What(file, e)}"));
                    return false;
                }
            }

            return true;
        }
    }
}
