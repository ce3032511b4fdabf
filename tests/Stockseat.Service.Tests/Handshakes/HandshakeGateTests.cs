using System.Net;
using Stockseat.Service.Handshakes;

namespace Stockseat.Service.Tests.Handshakes;

/// <summary>How many connections may be agreeing on TLS.</summary>
public sealed class HandshakeGateTests
{
    private static readonly IPAddress One = IPAddress.Parse("10.0.0.1");

    [Fact]
    public void One_address_has_a_quarter_of_the_places_and_the_others_stay_free()
    {
        var gate = new HandshakeGate(8);

        Assert.NotNull(gate.Enter(One));
        Assert.NotNull(gate.Enter(IPAddress.Parse("::ffff:10.0.0.1")));
        Assert.Null(gate.Enter(One));
        for (var i = 2; i <= 7; i++)
        {
            Assert.NotNull(gate.Enter(new IPAddress([10, 0, 0, (byte)i])));
        }

        Assert.Null(gate.Enter(IPAddress.Parse("10.0.0.9")));
    }

    [Fact]
    public void A_place_is_given_back_once()
    {
        var gate = new HandshakeGate(4);
        var place = gate.Enter(One)!;
        Assert.Null(gate.Enter(One));

        place.Dispose();
        place.Dispose();

        Assert.NotNull(gate.Enter(One));
        Assert.Null(gate.Enter(One));
    }

    [Fact]
    public void With_few_places_one_address_still_has_one() => Assert.NotNull(new HandshakeGate(1).Enter(One));
}
