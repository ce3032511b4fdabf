using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Tests.Store;

public sealed class ChainHashTests
{
    private static readonly JsonElement Published =
        JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "sha256.json"))).RootElement;

    /// <summary>The padding vectors hash the bytes 0 to n-1. With the bytes split accordingly, ours has to give the same for 0x01, previous and body.</summary>
    [Fact]
    public void The_hash_function_is_SHA_256_as_published()
    {
        Assert.All(Published.GetProperty("vectors").EnumerateArray(), v =>
        {
            var bytes = v.TryGetProperty("hex", out var hex) ? Convert.FromHexString(hex.GetString()!) : Encoding.ASCII.GetBytes(new string('a', 1_000_000));
            Assert.Equal(v.GetProperty("digest").GetString(), Convert.ToHexStringLower(Plain(bytes)));
        });
        Assert.All(Published.GetProperty("padding").EnumerateObject(), v =>
            Assert.Equal(v.Value.GetString(), Convert.ToHexStringLower(Plain([.. Enumerable.Range(0, int.Parse(v.Name)).Select(i => (byte)i)]))));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(22)]
    [InlineData(23)]
    [InlineData(30)]
    [InlineData(31)]
    [InlineData(32)]
    [InlineData(4000)]
    public void An_entry_s_hash_covers_the_mark_the_previous_hash_and_the_body(int length)
    {
        var previous = SHA256.HashData("before"u8);
        var body = Enumerable.Range(0, length).Select(i => (byte)(i * 7)).ToArray();

        Assert.Equal(Plain([0x01, .. previous, .. body]), ChainHash.Of(previous, body));
    }

    [Fact]
    public void Before_the_first_entry_there_are_32_zero_bytes() => Assert.Equal(new byte[32], ChainHash.Start);

    [Fact]
    public void The_prefix_is_what_is_hashed_before_the_body()
    {
        var prefix = new byte[ChainHash.PrefixSize];
        ChainHash.WritePrefix(prefix, SHA256.HashData("before"u8));

        Assert.Equal([0x01, .. SHA256.HashData("before"u8)], prefix);
    }

    /// <summary>SHA-256 by FIPS 180-4, written out here, so that the chain is not checked with the code that makes it.</summary>
    private static byte[] Plain(byte[] message)
    {
        var primes = Enumerable.Range(2, 400).Where(n => Enumerable.Range(2, n - 2).All(d => n % d != 0)).Take(64).ToArray();
        var k = primes.Select(p => Fraction(Math.Cbrt(p), p, 3)).ToArray();
        var h = primes.Take(8).Select(p => Fraction(Math.Sqrt(p), p, 2)).ToArray();
        var padded = message.Append((byte)0x80).Concat(new byte[(119 - message.Length % 64) % 64])
            .Concat(BitConverter.GetBytes((ulong)message.Length * 8).Reverse()).ToArray();
        var w = new uint[64];
        for (var at = 0; at < padded.Length; at += 64)
        {
            for (var t = 0; t < 64; t++)
            {
                w[t] = t < 16
                    ? System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(padded.AsSpan(at + 4 * t))
                    : w[t - 16] + (R(w[t - 15], 7) ^ R(w[t - 15], 18) ^ (w[t - 15] >> 3)) + w[t - 7] + (R(w[t - 2], 17) ^ R(w[t - 2], 19) ^ (w[t - 2] >> 10));
            }

            var v = (uint[])h.Clone();
            for (var t = 0; t < 64; t++)
            {
                var t1 = v[7] + (R(v[4], 6) ^ R(v[4], 11) ^ R(v[4], 25)) + ((v[4] & v[5]) ^ (~v[4] & v[6])) + k[t] + w[t];
                var t2 = (R(v[0], 2) ^ R(v[0], 13) ^ R(v[0], 22)) + ((v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]));
                v = [t1 + t2, v[0], v[1], v[2], v[3] + t1, v[4], v[5], v[6]];
            }

            h = [.. h.Zip(v, (a, b) => a + b)];
        }

        return [.. h.SelectMany(x => BitConverter.GetBytes(x).Reverse())];
    }

    private static uint R(uint x, int n) => uint.RotateRight(x, n);

    /// <summary>The first 32 bits of the fractional part of a root, exactly.</summary>
    private static uint Fraction(double near, int p, int power)
    {
        var scaled = System.Numerics.BigInteger.Pow(2, 32 * power) * p;
        var x = new System.Numerics.BigInteger(near * 4294967296.0);
        while (System.Numerics.BigInteger.Pow(x, power) > scaled)
        {
            x--;
        }

        while (System.Numerics.BigInteger.Pow(x + 1, power) <= scaled)
        {
            x++;
        }

        return (uint)(x & uint.MaxValue);
    }
}
