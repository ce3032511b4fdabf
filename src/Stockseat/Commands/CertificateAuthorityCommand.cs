using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Cli.Commands;

/// <summary>Makes an authority.</summary>
internal static class CertificateAuthorityCommand
{
    private const int UsualYears = 10;
    private const int MostYears = 30;

    /// <summary>RFC 5280, appendix A: the most characters of a common name.</summary>
    private const int LongestName = 64;

    public static Command Make()
    {
        var output = new Option<string>("--out")
        {
            HelpName = "DIR", Required = true,
            Description = $"the folder for {SigningAuthority.PemName} and {SigningAuthority.KeyName}; files are never overwritten",
        };
        var name = new Option<string>("--name")
        {
            HelpName = "NAME", Description = "the authority's name, as certificates show it", DefaultValueFactory = _ => "Stockseat authority",
        };
        var years = new Option<int>("--years")
        {
            HelpName = "N", Description = "for how many years from now", DefaultValueFactory = _ => UsualYears,
            CustomParser = r => (int)Common.Whole(r, "number of years", MostYears),
        };
        var json = Common.Json();
        name.Validators.Add(result =>
        {
            if (result.Tokens is [.., { Value: var text }] && (string.IsNullOrWhiteSpace(text) || text.Length > LongestName || text.Any(char.IsControl)))
            {
                result.AddError($"--name is '{text}'; 1 to {LongestName} characters on one line were expected");
            }
        });
        var command = new ShownCommand(
            "authority", "makes your own authority, which signs the certificates of a service and its clients",
            "certificate authority --out authority",
            "certificate authority --out authority --name \"Line 2\" --years 5")
        { output, name, years, json };
        command.SetAction(parsed => CertificateCommands.Try(
            () => Run(parsed.GetValue(output)!, parsed.GetValue(name)!, parsed.GetValue(years), CertificateCommands.View(parsed, json))));
        return command;
    }

    private static int Run(string folder, string name, int years, CertificateView view)
    {
        using var key = PrivateKey.Make();
        using var certificate = CertificateMaker.Authority(name, key, years, view.Now);
        var (file, keyFile) = (Path.Combine(folder, SigningAuthority.PemName), Path.Combine(folder, SigningAuthority.KeyName));
        CertificateFiles.MakeFolder(folder, isPrivate: true);
        CertificateFiles.Write(file, $"{certificate.ExportCertificatePem()}\n", (keyFile, key.Pem));
        view.Authority(CertificateFacts.Of(certificate), file, keyFile);
        return ExitCodes.Done;
    }
}
