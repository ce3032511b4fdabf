using System.Globalization;
using System.Runtime.InteropServices;

namespace Stockseat.Load.Servers;

/// <summary>The machine of a run, in words, from what Linux reports about it.</summary>
internal static class Machine
{
    public static string Text(string folder) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Environment.ProcessorCount} cores, {Processor()}; {Memory:F0} GB of memory; {Disk(folder)}; {RuntimeInformation.OSDescription}");

    /// <summary>How many threads ran or waited for a core, on average over the last 1, 5 and 15 minutes.</summary>
    public static string LoadAverage() => string.Join(' ', File.ReadAllText("/proc/loadavg").Split(' ')[..3]);

    private static double Memory => GC.GetGCMemoryInfo().TotalAvailableMemoryBytes / 1e9;

    private static string Processor()
    {
        var line = File.ReadLines("/proc/cpuinfo").FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal));
        return line?.Split(':', 2)[1].Trim() ?? "of no known model";
    }

    /// <summary>The file system of a folder and the device below it.</summary>
    private static string Disk(string folder)
    {
        // 36 35 98:0 /root /mount options - type device ...
        var mounts = File.ReadLines("/proc/self/mountinfo").Select(l => l.Split(' ')).Select(f => (At: f[4], Device: f.SkipWhile(w => w != "-").ToArray()));
        var (at, device) = mounts.Where(m => IsBelow(folder, m.At)).MaxBy(m => m.At.Length);
        var block = $"/sys/class/block/{Path.GetFileName(device[2])}";
        return string.Create(CultureInfo.InvariantCulture, $"{folder} on {device[1]} at {at}, {device[2]}{Size(block)}{Model(block)}");
    }

    private static bool IsBelow(string folder, string mount) => mount == "/" || folder == mount || folder.StartsWith(mount + "/", StringComparison.Ordinal);

    private static string Size(string block) => Read(block + "/size") is { } sectors
        ? FormattableString.Invariant($", {long.Parse(sectors, CultureInfo.InvariantCulture) * 512 / 1e9:F0} GB")
        : "";

    private static string Model(string block) => Read(block + "/device/model") is { } model ? $", {model}" : "";

    private static string? Read(string file) => File.Exists(file) ? File.ReadAllText(file).Trim() : null;
}
