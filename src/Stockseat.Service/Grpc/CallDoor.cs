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
/// <param name="next">What comes after it.</param>
/// <param name="door">Knows the rates.</param>
/// <param name="services">The services. All of them live as long as the process, so a call needs no scope of its own.</param>
internal sealed class CallDoor(RequestDelegate next, Door door, IServiceProvider services)
{
    /// <summary>Under which a call that is a push carries why it is not taken.</summary>
    public static readonly object Busy = new();

    /// <summary>Calls whose refusal leaves a measurement doubtful: so much of them is read that it is known of which fixture.</summary>
    private static readonly FrozenSet<string> Pushes = new[] { "Record", "RecordReadings", "Emptied" }
        .Select(m => $"/{GaugeService.Descriptor.FullName}/{m}").ToFrozenSet(StringComparer.Ordinal);

    public async Task InvokeAsync(HttpContext context)
    {
        if (context.Features.Get<Visit>() is not { Client: var client })
        {
            ClientTable.Stranger.WriteTo(context.Response);
            return;
        }

        context.RequestServices = services;
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
