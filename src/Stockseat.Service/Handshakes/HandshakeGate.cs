using System.Net;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Handshakes;

/// <summary>
/// Counts connections that are agreeing on TLS. Each costs a good deal of work and says nothing yet about who it is; so one address may have a quarter of
/// the places, and the others stay free for everybody else.
/// </summary>
/// <param name="most">How many there may be in all.</param>
public sealed class HandshakeGate(int most)
{
    private readonly Lock _lock = new();
    private readonly Dictionary<IPAddress, int> _of = [];
    private readonly int _mostOfOne = Math.Max(1, most / 4);
    private int _all;

    /// <summary>A place, to be disposed when TLS is agreed on or has failed; null when there is none.</summary>
    public IDisposable? Enter(IPAddress address)
    {
        address = ClientTable.Plain(address);
        lock (_lock)
        {
            var own = _of.GetValueOrDefault(address);
            if (_all >= most || own >= _mostOfOne)
            {
                return null;
            }

            (_all, _of[address]) = (_all + 1, own + 1);
        }

        return new Leaving(() => Leave(address));
    }

    private void Leave(IPAddress address)
    {
        lock (_lock)
        {
            _all--;
            if (--_of[address] == 0)
            {
                _of.Remove(address);
            }
        }
    }
}
