using System.CommandLine;
using Stockseat.Cli.Client;

namespace Stockseat.Cli.Commands;

/// <summary>
/// Where the service is, with the options for TLS. Each may also stand in the environment: STOCKSEAT_SERVER, STOCKSEAT_AUTHORITY, STOCKSEAT_CERTIFICATE and
/// STOCKSEAT_KEY.
/// </summary>
internal sealed class ServerOption : Option<string>
{
    private const string Usual = "http://127.0.0.1:28610";

    private readonly Option<string?> _authority = File("--authority",
        "the authority in PEM that issued the service's certificate; this machine's unless stated");
    private readonly Option<string?> _certificate = File("--certificate", "this side's own certificate in PEM, where the service asks for one");
    private readonly Option<string?> _key = File("--key", "the key of that certificate in PEM; the file beside it that ends with .key unless stated");

    public ServerOption()
        : base("--server")
    {
        HelpName = "URL";
        Description = "the address of the service; https:// where it has a certificate";
        DefaultValueFactory = _ => Environment.GetEnvironmentVariable("STOCKSEAT_SERVER") is { Length: > 0 } stated ? stated : Usual;
    }

    /// <summary>Gives every command that talks to a service the options for TLS.</summary>
    public static void Complete(Command command)
    {
        foreach (var server in command.Options.OfType<ServerOption>().ToList())
        {
            command.Options.Add(server._authority);
            command.Options.Add(server._certificate);
            if (command.Options.All(o => o.Name != server._key.Name)) // Where --key is a seal's key, the file beside the certificate or STOCKSEAT_KEY is used.
            {
                command.Options.Add(server._key);
            }
        }

        foreach (var part in command.Subcommands)
        {
            Complete(part);
        }
    }

    /// <summary>What the command line and the environment say.</summary>
    public ServiceAccess Of(ParseResult parsed) =>
        new(parsed.GetValue(this)!, Stated(parsed, _authority), Stated(parsed, _certificate), Stated(parsed, _key));

    private static Option<string?> File(string name, string description) => new(name) { HelpName = "FILE", Description = description };

    private static string? Stated(ParseResult parsed, Option<string?> option) => Typed(parsed, option)
        ?? (Environment.GetEnvironmentVariable($"STOCKSEAT_{option.Name.TrimStart('-').ToUpperInvariant()}") is { Length: > 0 } stated ? stated : null);

    /// <summary>What was typed; null for an option that the command does not have.</summary>
    private static string? Typed(ParseResult parsed, Option<string?> option) =>
        parsed.CommandResult.Command.Options.Contains(option) ? parsed.GetValue(option) : null;
}
