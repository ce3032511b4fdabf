using System.Collections.Frozen;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>
/// What every call passes before it is looked at, whatever it is: one of our methods, health, reflection, or none at all. Who is no client gets the same
/// refusal for all of them; a client's calls count for its rate, and so many may be under way.
/// </summary>
internal sealed class CallDoor(RequestDelegate next, ClientTable clients, Door door)
{
    /// <summary>Under which a call that is a push carries why it is not taken.</summary>
    public static readonly object Busy = new();

    /// <summary>Calls whose refusal leaves a measurement doubtful: so much of them is read that it is known of which fixture.</summary>
    private static readonly FrozenSet<string> Pushes = new[] { "Record", "RecordReadings", "Emptied" }
        .Select(m => $"/{GaugeService.Descriptor.FullName}/{m}").ToFrozenSet(StringComparer.Ordinal);

    public async Task InvokeAsync(HttpContext context)
    {
        if (clients.Find(context.Connection.RemoteIpAddress) is not { } client)
        {
            ClientTable.Stranger.WriteTo(context.Response);
            return;
        }

        if ((door.Ask(client) ?? door.Begin(client)) is { } busy)
        {
            if (Pushes.Contains(context.Request.Path.Value ?? ""))
            {
                context.Items[Busy] = busy;
                await next(context);
                return;
            }

            busy.WriteTo(context.Response);
            return;
        }

        try
        {
            await next(context);
        }
        finally
        {
            door.End(client);
        }
    }
}
