using System.Runtime.Versioning;

namespace Stockseat.Service.Examining;

/// <summary>Whether others could change what the service does, and whether the checks hold for the service's own user.</summary>
internal static class RightsCheck
{
    private const string About = "rights";

    public static IEnumerable<Finding> Look(Examined examined)
    {
        if (OperatingSystem.IsWindows())
        {
            yield break;
        }

        if (Environment.IsPrivilegedProcess)
        {
            yield return Finding.Advice(
                About, "the checks ran as root, who may do everything: run them as the service's user as well, to see what that user may do, with "
                    + "sudo -u stockseat before the command");
        }

        foreach (var path in new[] { examined.File, examined.Settings.Fixtures.Folder }.OfType<string>().Where(Path.Exists))
        {
            yield return MayAnybodyWrite(path)
                ? Finding.Fault(
                    About, $"everybody on this computer may write {path}, and so decide where the robot goes; take that right away: chmod o-w {path}")
                : Finding.Good(About, $"not everybody may write {path}");
        }
    }

    [UnsupportedOSPlatform("windows")]
    private static bool MayAnybodyWrite(string path) => (File.GetUnixFileMode(path) & UnixFileMode.OtherWrite) != 0;
}
