using System.Net;
using Stockseat.EndToEnd.Support;

namespace Stockseat.Reliability.Support;

/// <summary>Another machine: a network of its own, joined to this one by a cable that can be pulled.</summary>
internal sealed class Namespace : IAsyncDisposable
{
    private readonly string _name;

    private Namespace(string name, IPAddress here, IPAddress there) => (_name, Here, There) = (name, here, there);

    /// <summary>This machine's address at the cable.</summary>
    public IPAddress Here { get; }

    /// <summary>The other machine's.</summary>
    public IPAddress There { get; }

    private string Near => $"{_name}a";

    private string Far => $"{_name}b";

    /// <summary>Makes one; skips the test where that isn't possible. The addresses are from the range for network tests (RFC 2544).</summary>
    public static async Task<Namespace> Make()
    {
        Needs.Root();
        Needs.Programs("ip", "ss", "bash");
        var number = Random.Shared.Next(1 << 15);
        byte[] here = [198, (byte)(18 + (number >> 14)), (byte)(number >> 6), (byte)(number << 2 | 1)];
        byte[] there = [.. here[..3], (byte)(here[3] + 1)];
        var made = new Namespace($"sst{number:x}", new(here), new(there));
        try
        {
            await Needs.Run("ip", "netns", "add", made._name);
            await Needs.Run("ip", "link", "add", made.Near, "type", "veth", "peer", "name", made.Far, "netns", made._name);
            await Needs.Run("ip", "address", "add", $"{made.Here}/30", "dev", made.Near);
            await Needs.Run("ip", "link", "set", made.Near, "up");
            await Needs.Run("ip", "-n", made._name, "address", "add", $"{made.There}/30", "dev", made.Far);
            await Needs.Run("ip", "-n", made._name, "link", "set", made.Far, "up");
            return made;
        }
        catch (InvalidOperationException e)
        {
            await made.DisposeAsync();
            Assert.Skip($"no separate network can be made here: {e.Message}");
            throw;
        }
    }

    /// <summary>A program and its arguments, run on the other machine.</summary>
    public string[] Run(params string[] command) => ["ip", "netns", "exec", _name, .. command];

    /// <summary>Pulls the cable: from now on no packet gets through, not even a FIN.</summary>
    public async Task Pull()
    {
        await Needs.Run("ip", "-n", _name, "link", "set", Far, "down");
        Assert.Contains("state DOWN", await Needs.Run("ip", "-n", _name, "link", "show", Far), StringComparison.Ordinal);
    }

    public async ValueTask DisposeAsync()
    {
        // The pair of interfaces goes with either end; what was never made can't be deleted.
        await Tool.Run("ip", ["link", "delete", Near]);
        await Tool.Run("ip", ["netns", "delete", _name]);
    }
}
