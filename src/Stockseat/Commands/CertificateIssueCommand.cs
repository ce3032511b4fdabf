using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Service.Certificates;
using Stockseat.Service.Certificates.Issuing;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Commands;

/// <summary>Issues a certificate to a service or a client.</summary>
internal static class CertificateIssueCommand
{
    /// <summary>Some systems refuse certificates of services that hold for more than 825 days.</summary>
    private const int UsualDays = 730;
    private const int MostDays = 3650;

    private static readonly Argument<string> Name = new("NAME") { Description = $"whose certificate it is: {CertificateName.Expected}" };
    private static readonly Option<string> Authority = new("--authority")
    {
        HelpName = "DIR", Required = true, Description = $"the folder with {SigningAuthority.PemName} and {SigningAuthority.KeyName}",
    };
    private static readonly Option<string> Folder = new("--out")
    {
        HelpName = "DIR", Required = true, Description = "the folder for NAME.pem and NAME.key; files are never overwritten",
    };
    private static readonly Option<string> For = UsageErrors.Choice(
        new("--for") { Required = true, Description = "whether it proves to callers that this is the service, or to the service who calls" },
        "service", "client");
    private static readonly Option<HostName[]> Hosts = new("--host")
    {
        HelpName = "NAME-OR-ADDRESS", Arity = ArgumentArity.OneOrMore, AllowMultipleArgumentsPerToken = false, CustomParser = ReadHosts,
        Description = "for a service: a name or an address by which callers reach it; may be given several times",
    };
    private static readonly Option<Uri?> Uri = new("--uri")
    {
        HelpName = "URI", CustomParser = ReadUri, Description = "for a client: a URI that it proves besides dns:NAME, such as urn:cell-2:lathe-4",
    };
    private static readonly Option<int> Days = new("--days")
    {
        HelpName = "N", Description = "for how many days from now; never longer than the authority's certificate", DefaultValueFactory = _ => UsualDays,
        CustomParser = r => (int)Common.Whole(r, "number of days", MostDays),
    };
    private static readonly Option<string?> Key = new("--key")
    {
        HelpName = "FILE", Description = "renews: the key that exists is used and the pin stays the same; NAME-2.pem, or the next free number, is written, and "
            + "no key",
    };
    private static readonly Option<string?> FileName = new("--file")
    {
        HelpName = "NAME", Description = "the files' name without .pem and .key, where it should not be the certificate's",
    };
    private static readonly Option<bool> AsJson = Common.Json();

    public static Command Make()
    {
        var command = new ShownCommand(
            "issue", "issues a certificate to the service or to one of its clients",
            "certificate issue cell-server --for service --host cell-server --host 192.0.2.7 --authority authority --out tls",
            "certificate issue lathe-4 --for client --authority authority --out lathe-4",
            "certificate issue lathe-4 --for client --authority authority --out lathe-4 --key lathe-4/lathe-4.key")
        { Name, Authority, Folder, For, Hosts, Uri, Days, Key, FileName, AsJson };
        command.SetAction(parsed =>
        {
            var (asked, faults) = (Asked(parsed), Faults(parsed).ToList());
            return faults.Count > 0 ? CertificateCommands.Refuse("issue", faults)
                : CertificateCommands.Try(() => Run(asked, parsed, CertificateCommands.View(parsed, AsJson)));
        });
        return command;
    }

    private static CertificateRequested Asked(ParseResult parsed) => new(
        parsed.GetValue(Name)!, parsed.GetValue(For) == "service" ? CertificateUse.Service : CertificateUse.Client, parsed.GetValue(Hosts) ?? [],
        parsed.GetValue(Uri), parsed.GetValue(Days));

    private static IEnumerable<string> Faults(ParseResult parsed)
    {
        var asked = Asked(parsed);
        if (!CertificateName.IsName(asked.Name))
        {
            yield return $"NAME is '{asked.Name}'; {CertificateName.Expected} was expected";
        }

        if (parsed.GetValue(FileName) is { } file && !NameText.IsName(file))
        {
            yield return $"--file is '{file}'; {NameText.Expected} were expected: the folder is stated by --out, and .pem and .key are added";
        }

        if (asked.Use == CertificateUse.Service && asked.Hosts.Count == 0)
        {
            yield return "--host is missing: callers compare the service's certificate with the name or address that they called; state each of them";
        }

        if (asked.Use == CertificateUse.Service && asked.Uri is not null)
        {
            yield return "--uri is for a client's certificate; leave it out, or state --for client";
        }

        if (asked.Use == CertificateUse.Client && asked.Hosts.Count > 0)
        {
            yield return "--host is for a service's certificate; leave it out, or state --for service";
        }
    }

    private static int Run(CertificateRequested asked, ParseResult parsed, CertificateView view)
    {
        var (folder, file, given) = (parsed.GetValue(Folder)!, parsed.GetValue(FileName), parsed.GetValue(Key));
        using var authority = SigningAuthority.Load(parsed.GetValue(Authority)!, view.Now);
        using var key = given is null ? PrivateKey.Make() : PrivateKey.Load(given);
        using var issued = CertificateMaker.Issue(asked, key.Public, authority, view.Now);
        CertificateFiles.MakeFolder(folder, isPrivate: false);
        var path = Path.Combine(folder, file ?? asked.Name);
        var written = Write(issued.Certificate, path, given is null ? key : null, isNumbered: given is not null && file is null);
        view.Issued(
            CertificateFacts.Of(issued.Certificate), asked, written, given ?? Path.ChangeExtension(written, OwnCertificate.KeyExtension), given is null,
            issued.IsCut);
        return ExitCodes.Done;
    }

    /// <summary>Writes the files, and returns the name of the certificate's.</summary>
    /// <param name="certificate">The certificate.</param>
    /// <param name="path">The path without what says the kind.</param>
    /// <param name="key">Its key, when it is new.</param>
    /// <param name="isNumbered">Whether another number is tried when there is such a file: a renewal beside the certificate from before.</param>
    private static string Write(X509Certificate2 certificate, string path, PrivateKey? key, bool isNumbered)
    {
        const int Most = 999;
        for (var number = 1; ; number++)
        {
            var name = number == 1 ? path : string.Create(CultureInfo.InvariantCulture, $"{path}-{number}");
            try
            {
                CertificateFiles.Write($"{name}.pem", $"{certificate.ExportCertificatePem()}\n", key is null ? null : ($"{name}.key", key.Pem));
                return $"{name}.pem";
            }
            catch (IOException) when (isNumbered && number < Most && Path.Exists($"{name}.pem"))
            {
                // The next number.
            }
            catch (IOException e) when (key is not null && (Path.Exists($"{name}.pem") || Path.Exists($"{name}.key")))
            {
                throw new InvalidDataException(
                    $"nothing was written: {e.Message}; to renew with the key that exists add --key {name}.key, for a new key add --file with another name", e);
            }
        }
    }

    private static HostName[] ReadHosts(ArgumentResult result)
    {
        var all = new List<HostName>();
        foreach (var token in result.Tokens)
        {
            if (HostName.Read(token.Value, out var fault) is { } host)
            {
                all.Add(host);
            }
            else
            {
                result.AddError($"--host: {fault}");
            }
        }

        return [.. all];
    }

    /// <summary>Only a URI that stays letter by letter as it was typed: names are compared so.</summary>
    private static Uri? ReadUri(ArgumentResult result)
    {
        var text = result.Tokens[^1].Value;
        if (System.Uri.TryCreate(text, UriKind.Absolute, out var uri) && uri.AbsoluteUri == text)
        {
            return uri;
        }

        result.AddError($"--uri: '{text}' is not a complete URI in its usual text, such as urn:cell-2:lathe-4");
        return null;
    }
}
