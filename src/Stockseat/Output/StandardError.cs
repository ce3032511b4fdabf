using System.Runtime.InteropServices;
using System.Runtime.Versioning;
using System.Text;

namespace Stockseat.Cli.Output;

/// <summary>
/// The standard error of a service. On Linux the framework's own stream takes the lock of standard output while it writes: a log that nobody reads would then
/// block every other use of the console.
/// </summary>
internal static class StandardError
{
    /// <summary>From now on, writing to standard error blocks nothing else.</summary>
    public static void Detach()
    {
        if (OperatingSystem.IsLinux())
        {
            Console.SetError(new StreamWriter(new Descriptor(), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { AutoFlush = true });
        }
    }

    [SupportedOSPlatform("linux")]
    private sealed class Descriptor : Stream
    {
        private const int Two = 2;
        private const int Interrupted = 4;
        private const int TryAgain = 11;
        private const short Writable = 4;
        private const int WithoutLimit = -1;

        public override bool CanRead => false;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            while (buffer.Length > 0)
            {
                var written = write(Two, ref MemoryMarshal.GetReference(buffer), buffer.Length);
                if (written >= 0)
                {
                    buffer = buffer[(int)written..];
                    continue;
                }

                switch (Marshal.GetLastPInvokeError())
                {
                    case Interrupted:
                        break;
                    case TryAgain: // The descriptor that we were given is a non-blocking one.
                        var wait = new Polled { File = Two, Events = Writable };
                        _ = poll(ref wait, 1, WithoutLimit);
                        break;
                    default:
                        return; // Nobody reads it, and nobody could be told.
                }
            }
        }

        public override void Flush()
        {
        }

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        [DllImport("libc", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        private static extern nint write(int file, ref readonly byte bytes, nint count);

        [DllImport("libc", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        private static extern int poll(ref Polled files, nuint count, int milliseconds);

        [StructLayout(LayoutKind.Sequential)]
        private struct Polled
        {
            public int File;
            public short Events;
            public short Happened;
        }
    }
}
