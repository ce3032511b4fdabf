using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;

namespace Stockseat.Cli.Commands;

/// <summary>A small shop's own certificates. None of these commands asks the service, or needs a configuration.</summary>
internal static class CertificateCommands
{
    public static Command Make() => new ShownCommand(
        "certificate", "makes and shows certificates, for a service that is reached over a network",
        "certificate authority --out authority",
        "certificate issue cell-server --for service --host cell-server --host 192.0.2.7 --authority authority --out tls",
        "certificate issue lathe-4 --for client --authority authority --out lathe-4",
        "certificate show tls/cell-server.pem")
    { CertificateAuthorityCommand.Make(), CertificateIssueCommand.Make(), CertificateShowCommand.Make() };

    /// <summary>How a command shows certificates.</summary>
    public static CertificateView View(ParseResult parsed, Option<bool> json) =>
        new(TimeProvider.System.GetUtcNow(), DisplayOptions.Of(parsed).Times, parsed.GetValue(json));

    /// <summary>Runs what reads or writes files, and says on stderr what went wrong.</summary>
    public static int Try(Func<int> run)
    {
        try
        {
            return run();
        }
        catch (InvalidDataException e)
        {
            Console.Error.WriteLine(Plain.Text(e.Message));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"nothing was written: {e.Message.TrimEnd('.')}; name another folder or file, or make room there"));
        }

        return ExitCodes.Failed;
    }

    /// <summary>Says on stderr what is wrong with the command line.</summary>
    public static int Refuse(string command, IEnumerable<string> faults)
    {
        foreach (var fault in faults)
        {
            Console.Error.WriteLine(Plain.Text(fault));
        }

        Console.Error.WriteLine($"see stockseat certificate {command} --help");
        return ExitCodes.Usage;
    }
}
