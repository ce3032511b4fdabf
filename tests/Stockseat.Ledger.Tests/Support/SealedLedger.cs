using System.Security.Cryptography;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>A small real ledger: what a shop does; sealed by one key and then by another; stopped.</summary>
internal sealed class SealedLedger : IDisposable
{
    private static readonly Lazy<Task<SealedLedger>> Made = new(Make);

    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-sealed-").FullName;

    private SealedLedger() => (First, Second, Foreign) = (Key("first"), Key("second"), Key("foreign"));

    public SealKey First { get; }

    public SealKey Second { get; }

    /// <summary>A key that never sealed it.</summary>
    public SealKey Foreign { get; }

    /// <summary>The file's bytes.</summary>
    public byte[] File { get; private set; } = [];

    /// <summary>All bodies in order.</summary>
    public IReadOnlyList<string> Bodies { get; private set; } = [];

    /// <summary>The serials of the seals.</summary>
    public IReadOnlyList<int> Seals { get; private set; } = [];

    /// <summary>The hash of the last entry, kept outside.</summary>
    public Anchor Head { get; private set; } = null!;

    /// <summary>The ledger that every test copies; made once.</summary>
    public static Task<SealedLedger> Get() => Made.Value;

    public SealKey Key(string name)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var path = Path.Combine(_folder, $"{name}.pem");
        System.IO.File.WriteAllText(path, key.ExportPkcs8PrivateKeyPem());
        System.IO.File.WriteAllText(Path.Combine(_folder, $"{name}.pub.pem"), key.ExportSubjectPublicKeyInfoPem());
        if (!OperatingSystem.IsWindows())
        {
            System.IO.File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        return SealKey.Load(path, Path.Combine(_folder, "data"));
    }

    /// <summary>The public half of a key as a file.</summary>
    public string PublicFile(string name) => Path.Combine(_folder, $"{name}.pub.pem");

    public void Dispose()
    {
        First.Dispose();
        Second.Dispose();
        Foreign.Dispose();
    }

    private static async Task<SealedLedger> Make()
    {
        var made = new SealedLedger();
        var time = new FakeTimeProvider(Ledger.Start);
        using var ledger = await new Ledger(time).Begin();
        SealKey? before = null;
        async Task Seal(SealKey key)
        {
            var head = ledger.Rows()[^1];
            var seal = key.Seal("ledger-1", head.Serial, head.Hash, time.GetUtcNow(), before?.Public.Fingerprint);
            before = key;
            Assert.Null((await Ledger.Soon(ledger.Writer.Append(_ => [seal]))).Refusal);
        }

        await ledger.Do(Ledger.Locate());
        await ledger.Do(Ledger.Measured(0.091));
        await ledger.Do(Ledger.Confirm(3));
        await Seal(made.First);
        await ledger.Do(Ledger.Locate(0.095, request: "r-1"));
        await Seal(made.First);
        await ledger.Do(Ledger.Locate(null));
        await Seal(made.Second);
        await ledger.Do(Ledger.Locate(0.0901));
        // Refused, since the readings do not agree: it voids the measurement, and it is the kind of refusal that an index has.
        await ledger.Do<RefusalBody>(Ledger.Measured(0.09) with { ReadingsMetres = [0.090, 0.0905], Terms = new(null, 1e-5, TimeSpan.FromHours(8)) });
        await ledger.Do(Ledger.Locate(0.092));
        Assert.Null((await Ledger.Soon(ledger.Writer.Append(_ => [new ServiceStoppedBody()]))).Refusal);
        await Seal(made.Second);
        var rows = ledger.Rows();
        await ledger.Close();
        made.File = System.IO.File.ReadAllBytes(ledger.File);
        made.Bodies = [.. rows.Select(r => r.Body)];
        made.Seals = [.. rows.Where(r => r.Kind == Kinds.Seal).Select(r => (int)r.Serial)];
        made.Head = new("ledger-1", rows[^1].Serial, Convert.ToHexStringLower(rows[^1].Hash), rows[^1].At, null, null);
        return made;
    }
}
