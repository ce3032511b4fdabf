using System.CommandLine;
using System.Text;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>What a ledger is checked against, as read from the files.</summary>
/// <param name="Anchors">Anchors that were kept outside the machine.</param>
/// <param name="Keys">Public keys in PEM.</param>
/// <param name="RequireSeal">Whether a ledger without seals counts as not intact.</param>
/// <param name="Tail">How many entries may follow the newest seal.</param>
internal sealed record VerifyDemands(IReadOnlyList<string> Anchors, IReadOnlyList<string> Keys, bool RequireSeal, long Tail)
{
    // A key or an anchor has a few lines; whatever is longer is another file.
    private const int LongestText = 64 * 1024;

    /// <summary>For a ledger in its folder.</summary>
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
            HelpName = "FILE",
            Description = "an anchor that was kept outside the machine, or - for stdin: finds a cut tail or an old copy; may be given several times",
            Arity = ArgumentArity.OneOrMore,
        };

        private readonly Option<string[]> _keys = new("--key")
        {
            HelpName = "FILE", Description = "only this public key (PEM) may have sealed; may be given several times", Arity = ArgumentArity.OneOrMore,
        };

        private readonly Option<bool> _requireSeal =
            new("--require-seal") { Description = "counts a ledger without seals, or with a long unsealed tail, as not intact" };

        private readonly Option<long> _tail = new("--tail")
        {
            HelpName = "N", Description = "how many entries may follow the newest seal", DefaultValueFactory = _ => VerifyOptions.UsualTail,
            CustomParser = r => Common.Whole(r, "number of entries", long.MaxValue, least: 0),
        };

        /// <summary>Adds them to a command.</summary>
        public void AddTo(Command command)
        {
            foreach (var option in new Option[] { _against, _keys, _requireSeal, _tail })
            {
                command.Options.Add(option);
            }
        }

        /// <summary>Whether any of them was stated.</summary>
        public bool Stated(ParseResult parsed) =>
            parsed.GetResult(_against) is not null || parsed.GetResult(_keys) is not null || parsed.GetValue(_requireSeal);

        /// <summary>Reads the files; null, with a message, when one can't be read.</summary>
        public async Task<VerifyDemands?> Read(ParseResult parsed, CancellationToken token)
        {
            var (anchors, keys) = (new List<string>(), new List<string>());
            return await Read(parsed.GetValue(_against), "an anchor", t => Anchor.TryParse(t, out var fault) is null ? fault : null, anchors, token)
                && await Read(parsed.GetValue(_keys), "a key", t => PublicSealKey.FromPem(t) is null ? "is not a public key on P-256 in "
                    + "PEM" : null, keys, token)
                ? new(anchors, keys, parsed.GetValue(_requireSeal), parsed.GetValue(_tail)) : null;
        }

        /// <summary>Reads small texts; false, with a message, when one can't be read.</summary>
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
                    Console.Error.WriteLine(Plain.Text($"{(file == "-" ? "stdin" : file)} can't be used as {what}: it {RegularFile.What(file, e)}"));
                    return false;
                }
            }

            return true;
        }
    }
}
