using System.CommandLine;
using System.Security.Cryptography.X509Certificates;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Cli.Commands;

/// <summary>Shows what certificates say.</summary>
internal static class CertificateShowCommand
{
    public static Command Make()
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.OneOrMore, Description = "a file with one or more certificates, in PEM" };
        var json = Common.Json();
        var command = new ShownCommand(
            "show", "shows names, uses, pin and end of certificates; exit code 0 usable, 1 one is not, 2 a file could not be read",
            "certificate show tls/cell-server.pem",
            "certificate show tls/cell-server.pem tls/authority.pem --json")
        { files, json };
        command.SetAction(parsed =>
        {
            var view = CertificateCommands.View(parsed, json);
            return parsed.GetValue(files)!.Select(f => CertificateCommands.Try(() => Show(f, view))).Aggregate(ExitCodes.Done, Math.Max);
        });
        return command;
    }

    private static int Show(string file, CertificateView view)
    {
        var (all, code) = (PemCertificates.Load(file), ExitCodes.Done);
        for (var i = 0; i < all.Count; i++)
        {
            using var certificate = all[i];
            var facts = CertificateFacts.Of(certificate);
            List<CertificateAdvice> advice = [.. CertificateAdvice.Of(facts, view.Now, view.Times), .. i == 0 ? OfItsKey(file, certificate) : []];
            view.Show(file, i + 1, all.Count, facts, advice);
            code = advice.Any(a => a.IsFault) ? ExitCodes.Refused : code;
        }

        return code;
    }

    /// <summary>The first certificate of a file is the one that a key beside it belongs to; the others lead to the authority.</summary>
    private static CertificateAdvice[] OfItsKey(string file, X509Certificate2 certificate) =>
        KeyBeside.Find(file) is { } key && KeyBeside.Check(key, certificate) is { } said ? [said] : [];
}
