using System.Text;
using Grpc.Core;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>On a terminal: shows what a revision means in base and what it changes, and asks whether it is to come into force.</summary>
internal static class AdoptQuestion
{
    /// <summary>Whether to adopt. Without a terminal nobody is asked; a revision that can't be read is adopted or refused by the service.</summary>
    public static async Task<bool> IsYes(ServiceClient client, AdoptRequest request, LengthUnit unit)
    {
        if (Console.IsInputRedirected || Console.IsOutputRedirected || await Read(client, request.Fixture, request.Revision) is not { } next)
        {
            return true;
        }

        StatementView.Print(next, unit);
        if (await Read(client, request.Fixture, null) is { } inForce)
        {
            FindingsView.Print(inForce, RevisionChanges.Between(new(inForce, []), new(next, [])));
        }

        Console.Error.Write($"Adopt revision {next.Number} of {next.Fixture}, digest {next.Digest[..12]}? Type yes: ");
        return Console.ReadLine()?.Trim() is "yes" or "y";
    }

    private static async Task<Revision?> Read(ServiceClient client, string fixture, int? number)
    {
        var request = new GetRevisionRequest { Fixture = fixture };
        if (number is { } stated)
        {
            request.Revision = stated;
        }

        try
        {
            var response = await client.Call(token => client.Fixtures.GetRevisionAsync(request, cancellationToken: token));
            return RevisionReader.FromContent(Encoding.UTF8.GetBytes(response.ContentJson), fixture).Revision;
        }
        catch (RpcException)
        {
            return null;
        }
    }
}
