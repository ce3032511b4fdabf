using System.Collections.Frozen;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>
/// What every call passes before it is examined, whatever it is: one of our methods, health, reflection, or an unknown one. A caller that is not a client gets
/// the same refusal for all of them; a client's calls count towards its rate, and a limited number may be under way.
/// </summary>
/// <param name="next">What comes after it.</param>
/// <param name="door">Knows the rates.</param>
/// <param name="hosts">The names by which the service may be called.</param>
/// <param name="services">The services. All of them live as long as the process, so a call needs no scope of its own.</param>
internal sealed class CallDoor(RequestDelegate next, Door door, HostNames hosts, IServiceProvider services)
{
    /// <summary>The key under which a push carries why it is not accepted.</summary>
    public static readonly object Busy = new();

    /// <summary>Calls whose refusal leaves a measurement doubtful: as much of them is read as is needed to know the fixture.</summary>
    private static readonly FrozenSet<string> Pushes = new[] { "Record", "RecordReadings", "Emptied" }
        .Select(m => $"/{GaugeService.Descriptor.FullName}/{m}").ToFrozenSet(StringComparer.Ordinal);

    public async Task InvokeAsync(HttpContext context)
    {
        if (context.Features.Get<Visit>() is not { Client: var client })
        {
            ClientTable.Stranger.WriteTo(context.Response);
            return;
        }

        if (hosts.Refused(context.Request) is { } foreign)
        {
            door.Count(TurnedAway.Host);
            foreign.WriteTo(context.Response);
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
