using System.Net;
using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Handshakes;

/// <summary>
/// The door of a listener with TLS. A caller is known or turned away before a byte of its protocol is read: by its address before TLS begins, by its
/// certificate as soon as TLS is agreed on. Who is turned away then is told why, in its own protocol.
/// </summary>
internal sealed class TlsDoor(ServiceTls tls, ClientTable clients, Door door, DoorLimits limits, TimeProvider time, ILogger<TlsDoor> logger)
{
    private const byte Greeting = 0x16;

    private readonly HandshakeGate _gate = new(limits.Handshakes);
    private readonly LogSampler _sampler = new(time);

    /// <summary>Puts TLS before what comes next at a listener.</summary>
    /// <param name="listener">The listener.</param>
    /// <param name="protocols">What is offered by ALPN; none: nothing.</param>
    /// <param name="plain">What a caller reads that speaks without TLS; null: nothing.</param>
    /// <param name="farewell">Tells a caller, in the protocol that follows, why it is turned away.</param>
    public void Guard(
        ListenOptions listener, List<SslApplicationProtocol>? protocols, ReadOnlyMemory<byte>? plain,
        Func<ConnectionContext, Refusal, CancellationToken, Task> farewell)
    {
        listener.Use(next => connection => Enter(connection, next, plain));
        listener.UseHttps(new TlsHandshakeCallbackOptions
        {
            HandshakeTimeout = limits.Handshake,
            OnConnection = context => ValueTask.FromResult(Options(context.Connection, protocols)),
        });
        listener.Use(next => async connection =>
        {
            var handshake = connection.Features.Get<Handshake>()!;
            if (handshake.Refused is { } why)
            {
                await connection.TakeLeave((to, late) => farewell(to, Refusal.Of(Reason.NotPermitted, why), late), time);
                return;
            }

            handshake.Agreed();
            await next(connection);
        });
    }

    private async Task Enter(ConnectionContext connection, ConnectionDelegate next, ReadOnlyMemory<byte>? plain)
    {
        if (connection.RemoteEndPoint is not IPEndPoint { Address: var address } || !clients.MayCome(address))
        {
            Refuse(connection, TurnedAway.NoClient, "no client of the configuration comes from this address");
            return;
        }

        using var place = _gate.Enter(address);
        if (place is null)
        {
            Refuse(connection, TurnedAway.Handshakes, "too many connections, of this address or in all, are still agreeing on TLS");
            return;
        }

        var handshake = new Handshake(place);
        connection.Features.Set(handshake);
        if (!await IsTls(connection, plain))
        {
            return;
        }

        await next(connection);
        if (!handshake.IsAgreed && !handshake.IsTold)
        {
            Tell(connection, TurnedAway.Handshake, "TLS was not agreed on in time, or the caller did not trust this service, or wanted another version of TLS");
        }
    }

    /// <summary>Looks at the first byte, which shows whether the caller speaks TLS at all.</summary>
    private async Task<bool> IsTls(ConnectionContext connection, ReadOnlyMemory<byte>? plain)
    {
        using var late = new CancellationTokenSource(limits.Handshake, time);
        var input = connection.Transport.Input;
        try
        {
            var read = await input.ReadAsync(late.Token);
            if (read.Buffer.IsEmpty)
            {
                return false; // It has gone.
            }

            var isTls = read.Buffer.FirstSpan[0] == Greeting;
            var foreign = ForeignBytes.HasMethod(read.Buffer.FirstSpan);
            input.AdvanceTo(isTls ? read.Buffer.Start : read.Buffer.End);
            if (isTls)
            {
                return true;
            }

            Tell(connection, TurnedAway.Foreign, "it does not speak TLS");
            if (plain is { } told && !foreign) // A page in a browser is told nothing.
            {
                await connection.Transport.Output.WriteAsync(told, late.Token);
            }
        }
        catch (OperationCanceledException)
        {
            Refuse(connection, TurnedAway.Handshake, "TLS did not begin in time");
        }
        catch (Exception e) when (e is ConnectionResetException or ConnectionAbortedException)
        {
            // It has gone.
        }

        return false;
    }

    /// <summary>What a handshake uses: the certificate of this instant, and a check of the caller's.</summary>
    private SslServerAuthenticationOptions Options(ConnectionContext connection, List<SslApplicationProtocol>? protocols)
    {
        var (now, at) = (tls.Now, time.GetUtcNow());
        return new()
        {
            ServerCertificateContext = now.Context,
            EnabledSslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13,
            ApplicationProtocols = protocols ?? [],
            ClientCertificateRequired = true, // It is asked for; who shows none may be known by the address.
            CertificateRevocationCheckMode = X509RevocationMode.NoCheck,
            CertificateChainPolicy = ProofCheck.Policy(now, at),
            AllowRenegotiation = false,
            AllowTlsResume = false, // Each connection proves anew who it is.
            RemoteCertificateValidationCallback = (_, certificate, _, errors) => Prove(connection, certificate as X509Certificate2, errors, at),
        };
    }

    private bool Prove(ConnectionContext connection, X509Certificate2? certificate, SslPolicyErrors errors, DateTimeOffset at)
    {
        var (proof, why) = ProofCheck.Of(certificate, errors, ((IPEndPoint)connection.RemoteEndPoint!).Address, clients, at);
        if (why is { } cause)
        {
            var said = ProofCheck.Said(cause, certificate);
            Tell(connection, cause, said);
            connection.Features.Get<Handshake>()!.Refused = said;
        }

        connection.Features.Set(proof);
        return true; // Whoever is turned away is told why when TLS is agreed on, before a byte of the protocol is read.
    }

    private void Refuse(ConnectionContext connection, TurnedAway why, string said)
    {
        Tell(connection, why, said);
        connection.Abort(new ConnectionAbortedException(said));
    }

    private void Tell(ConnectionContext connection, TurnedAway why, string said)
    {
        connection.Features.Get<Handshake>()?.Told();
        door.Count(why);
        if (_sampler.Take() is { } passedOver)
        {
            Log.NoTls(logger, connection.RemoteEndPoint?.ToString(), why.Name(), said, passedOver);
        }
    }

    /// <summary>How far one connection has come.</summary>
    private sealed class Handshake(IDisposable place)
    {
        public bool IsAgreed { get; private set; }

        public bool IsTold { get; private set; }

        /// <summary>Why the caller is turned away by its certificate; null: it is not.</summary>
        public string? Refused { get; set; }

        public void Told() => IsTold = true;

        public void Agreed()
        {
            IsAgreed = true;
            place.Dispose();
        }
    }
}
