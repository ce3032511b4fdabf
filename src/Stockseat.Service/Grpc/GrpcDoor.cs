using System.Net;
using Microsoft.AspNetCore.Connections;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Grpc;

/// <summary>The door of the gRPC listener: its connections are counted like those of lines. An unknown caller's first call is refused.</summary>
internal static class GrpcDoor
{
    public static void UseDoor(this IConnectionBuilder listener, Door door, TimeProvider time) => listener.Use(next => async connection =>
    {
        connection.KeepAlive();
        var (visit, refusal) = door.Enter(connection.RemoteEndPoint as IPEndPoint, connection.Features.Get<CallerProof>());
        using var let = visit ?? (refusal!.Reason == Reason.NotPermitted ? door.EnterUnknown() : null);
        if (let is null)
        {
            connection.Abort(new ConnectionAbortedException(refusal!.Text));
            return;
        }

        if (visit is null)
        {
            await connection.TakeLeave((to, late) => StrangersCall.Refuse(to, refusal!, late), time);
            return;
        }

        connection.Features.Set(visit); // Each call of the connection finds it there.
        await next(connection);
    });
}
