using System.Net;
using Microsoft.AspNetCore.Connections;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;

namespace Stockseat.Service.Clients;

/// <summary>The door of a listener for HTTP: its connections are counted like those of lines. An unknown caller's first request is refused.</summary>
internal static class ConnectionDoor
{
    /// <summary>Lets only clients in; every request of such a connection finds its <see cref="Visit"/>.</summary>
    /// <param name="listener">The listener.</param>
    /// <param name="door">Counts.</param>
    /// <param name="time">The clock.</param>
    /// <param name="farewell">Says why a caller is turned away, in the listener's protocol.</param>
    /// <param name="refused">Why this listener turns away a client that another would let in; null: it lets all in.</param>
    public static void UseDoor(
        this IConnectionBuilder listener, Door door, TimeProvider time, Func<ConnectionContext, Refusal, CancellationToken, Task> farewell,
        Func<Visit, CallerProof?, IPAddress, Refusal?>? refused = null) => listener.Use(next => async connection =>
    {
        connection.KeepAlive();
        var (from, proof) = (connection.RemoteEndPoint as IPEndPoint, connection.Features.Get<CallerProof>());
        var (visit, refusal) = door.Enter(from, proof);
        if (visit is not null && refused?.Invoke(visit, proof, ClientTable.Plain(from!.Address)) is { } why)
        {
            visit.Dispose();
            door.Count(TurnedAway.NoClient);
            (visit, refusal) = (null, why);
        }

        using var let = visit ?? (refusal!.Reason == Reason.NotPermitted ? door.EnterUnknown() : null);
        if (let is null)
        {
            connection.Abort(new ConnectionAbortedException(refusal!.Text));
            return;
        }

        if (visit is null)
        {
            await connection.TakeLeave((to, late) => farewell(to, refusal!, late), time);
            return;
        }

        connection.Features.Set(visit);
        await next(connection);
    });
}
