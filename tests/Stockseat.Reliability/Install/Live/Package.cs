using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install.Live;

/// <summary>The Debian package of the native program.</summary>
internal static class Package
{
    /// <summary>The date of everything in it.</summary>
    private const string Epoch = "1795651200";

    /// <summary>Packing is work for a processor that other tests use too.</summary>
    private static readonly TimeSpan Packing = TimeSpan.FromMinutes(5);

    /// <summary>Makes it in a folder.</summary>
    public static async Task<string> Make(string folder)
    {
        Needs.Programs("dpkg-deb", "strip", "gzip", "awk");
        var run = await Tool.RunFor(
            Packing, "/bin/sh", [Path.Combine(Scratch.Scripts, "package.sh"), Built.Native.Folder, folder], null, ("SOURCE_DATE_EPOCH", Epoch));
        run.Exits(0);
        return Assert.Single(Directory.EnumerateFiles(folder, "*.deb"));
    }

    /// <summary>The same package with a later version.</summary>
    public static async Task<string> Later(string package, string version)
    {
        var later = Path.Combine(Path.GetDirectoryName(package)!, "later.deb");
        (await Tool.RunFor(Packing, "/bin/sh", ["-c",
            """
            set -e
            tree=$(mktemp -d)
            dpkg-deb -R "$0" "$tree"
            sed -i "s/^Version: .*/Version: $2/" "$tree/DEBIAN/control"
            dpkg-deb --root-owner-group -Zgzip --build "$tree" "$1"
            rm -r "$tree"
            """, package, later, version])).Exits(0);
        return later;
    }
}
