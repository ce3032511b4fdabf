using System.Security.AccessControl;
using System.Security.Principal;
using System.Runtime.Versioning;
using System.Text;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>
/// Writes new certificates and keys: never in the place of a file, also when another program makes one at the same moment, and never a part of them.
/// </summary>
public static class CertificateFiles
{
    private const UnixFileMode Everybody = UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.OtherRead;

    /// <summary>Makes a folder; one that exists stays as it is.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="isPrivate">Whether only its owner may enter it.</param>
    /// <exception cref="IOException">It can't be made.</exception>
    public static void MakeFolder(string folder, bool isPrivate)
    {
        if (File.Exists(folder))
        {
            throw new IOException($"{folder} is a file, and a folder was expected");
        }

        if (OperatingSystem.IsWindows() || !isPrivate)
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    /// <summary>Writes a certificate, and its key unless it has one already; both or none.</summary>
    /// <param name="certificate">The certificate's path.</param>
    /// <param name="certificatePem">What is written there; everybody may read it.</param>
    /// <param name="key">The key's path, and what is written there; only its owner may ever read it. Null for none.</param>
    /// <exception cref="IOException">One of them exists, or can't be written.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not write there.</exception>
    public static void Write(string certificate, string certificatePem, (string Path, string Pem)? key)
    {
        var made = new List<string>(2);
        try
        {
            if (key is { } secret)
            {
                Write(secret.Path, secret.Pem, isSecret: true, made);
            }

            Write(certificate, certificatePem, isSecret: false, made);
        }
        catch
        {
            made.ForEach(File.Delete);
            throw;
        }
    }

    private static void Write(string path, string text, bool isSecret, List<string> made)
    {
        using var file = Create(path, isSecret);
        made.Add(path);
        if (!OperatingSystem.IsWindows())
        {
            CheckMode(file, path, isSecret);
        }

        file.Write(Encoding.ASCII.GetBytes(text));
        file.Flush(flushToDisk: true);
    }

    /// <summary>The mode is there from the first byte on; who makes the file may write it all the same.</summary>
    private static FileStream Create(string path, bool isSecret)
    {
        try
        {
            if (OperatingSystem.IsWindows())
            {
                return isSecret ? CreateForThisUser(path) : new(path, FileMode.CreateNew, FileAccess.Write, FileShare.None);
            }

            return new(path, new FileStreamOptions
            {
                Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.None, UnixCreateMode = isSecret ? UnixFileMode.UserRead : Everybody,
            });
        }
        catch (IOException) when (Path.Exists(path))
        {
            throw new IOException($"{path} already exists and is never overwritten");
        }
    }

    [UnsupportedOSPlatform("windows")]
    private static void CheckMode(FileStream file, string path, bool isSecret)
    {
        if (!isSecret)
        {
            File.SetUnixFileMode(file.SafeFileHandle, Everybody); // whatever the umask is
        }
        else if (File.GetUnixFileMode(file.SafeFileHandle) != UnixFileMode.UserRead)
        {
            throw new IOException($"the file system of {path} does not keep access rights, so others could read the key; name a folder on another one");
        }
    }

    [SupportedOSPlatform("windows")]
    private static FileStream CreateForThisUser(string path)
    {
        using var me = WindowsIdentity.GetCurrent();
        var rights = new FileSecurity();
        rights.SetAccessRuleProtection(isProtected: true, preserveInheritance: false);
        rights.AddAccessRule(new(me.User!, FileSystemRights.FullControl, AccessControlType.Allow));
        return new FileInfo(path).Create(FileMode.CreateNew, FileSystemRights.Write, FileShare.None, 4096, FileOptions.None, rights);
    }
}
