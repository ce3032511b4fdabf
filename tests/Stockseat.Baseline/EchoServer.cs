using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Stockseat.Baseline;

/// <summary>
/// The baseline: the service's server stack, with the service's settings, which replies at once and keeps no ledger. No connection limits, no roles, no
/// log: whatever the service does beyond this shows as its cost.
/// </summary>
internal static class EchoServer
{
    private const int BufferedBytes = 32 * 1024;
    private const int LargestMessage = 64 * 1024;

    public static async Task Run()
    {
        var builder = WebApplication.CreateEmptyBuilder(new() { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.Http2.KeepAlivePingDelay = TimeSpan.FromMinutes(1);
            kestrel.Listen(IPAddress.Loopback, 0, listener => listener.Protocols = HttpProtocols.Http2);
            kestrel.Listen(IPAddress.Loopback, 0, listener => listener.UseConnectionHandler<EchoLines>());
        });
        builder.Services.Configure<SocketTransportOptions>(sockets =>
        {
            sockets.MaxReadBufferSize = BufferedBytes;
            sockets.MaxWriteBufferSize = BufferedBytes;
        });
        builder.Services.Configure<HostOptions>(options => options.ShutdownTimeout = TimeSpan.FromSeconds(1));
        builder.Services.AddRouting();
        builder.Services.AddGrpc(grpc => grpc.MaxReceiveMessageSize = LargestMessage);
        await using var app = builder.Build();
        app.MapGrpcService<EchoLookup>();
        await app.StartAsync();
        var bound = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Select(a => new Uri(a).Authority).ToList();
        await Console.Out.WriteLineAsync($"ready grpc={bound[0]} line={bound[1]}");
        await Console.Out.FlushAsync();
        await app.WaitForShutdownAsync();
    }
}
