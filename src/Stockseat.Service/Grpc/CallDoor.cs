using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Grpc;

/// <summary>
/// What every call passes before it is looked at, whatever it is: one of our methods, health, reflection, or none at all. Who is no client gets the same
/// refusal for all of them; a client's calls count for its rate, and so many may be under way.
/// </summary>
internal sealed class CallDoor(RequestDelegate next, ClientTable clients, Door door)
{
    public async Task InvokeAsync(HttpContext context)
    {
        if (clients.Find(context.Connection.RemoteIpAddress) is not { } client)
        {
            ClientTable.Stranger.WriteTo(context.Response);
            return;
        }

        if ((door.Ask(client) ?? door.Begin(client)) is { } busy)
        {
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
