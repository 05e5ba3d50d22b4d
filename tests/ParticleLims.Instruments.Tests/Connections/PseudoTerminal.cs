using System.Runtime.InteropServices;
using System.Text;

namespace ParticleLims.Instruments.Tests.Connections;

/// <summary>
/// A pair of pseudo terminals (posix_openpt, POSIX.1-2008): one end is a serial port for the code under test, at a path that stays the
/// same; the other is the balance, which the test writes for. Needs nothing but the system's own library.
/// </summary>
internal sealed class PseudoTerminal : IDisposable
{
    private const int ReadWrite = 2;
    private const int NoControllingTerminal = 256;
    private const int NonBlocking = 2048;
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("particlelims-port-");
    private int _balance = -1;

    public PseudoTerminal() => PlugIn();

    /// <summary>Where the code under test finds the port; gone while it is unplugged.</summary>
    public string Path => System.IO.Path.Combine(_folder.FullName, "balance");

    public void PlugIn()
    {
        _balance = Checked(posix_openpt(ReadWrite | NoControllingTerminal | NonBlocking));
        Checked(grantpt(_balance));
        Checked(unlockpt(_balance));
        var name = new byte[128];
        Checked(ptsname_r(_balance, name, name.Length));
        File.CreateSymbolicLink(Path, Encoding.ASCII.GetString(name, 0, Array.IndexOf(name, (byte)0)));
    }

    /// <summary>Pulls the cable: the port hangs up and its path goes.</summary>
    public void Unplug()
    {
        File.Delete(Path);
        Checked(close(_balance));
        _balance = -1;
    }

    public void Send(string text) => Send(Encoding.Latin1.GetBytes(text));

    public void Send(byte[] bytes)
    {
        for (var sent = 0; sent < bytes.Length;)
        {
            var count = write(_balance, bytes[sent..], bytes.Length - sent);
            if (count > 0)
            {
                sent += (int)count;
            }
            else
            {
                // The other side has not read yet.
                Thread.Sleep(1);
            }
        }
    }

    /// <summary>What the code under test has sent to the balance so far.</summary>
    public string Received()
    {
        var buffer = new byte[4096];
        var count = read(_balance, buffer, buffer.Length);
        return count > 0 ? Encoding.Latin1.GetString(buffer, 0, (int)count) : string.Empty;
    }

    public void Dispose()
    {
        if (_balance >= 0)
        {
            Unplug();
        }

        _folder.Delete(recursive: true);
    }

    private static int Checked(int result) => result >= 0 ? result : throw new InvalidOperationException($"The system refused a pseudo terminal: error {Marshal.GetLastPInvokeError()}.");

#pragma warning disable SYSLIB1054, CA5392, IDE1006, SA1300 // A handful of calls as the system names them; generated marshalling would need unsafe code in the tests.
    [DllImport("libc", SetLastError = true)]
    private static extern int posix_openpt(int flags);

    [DllImport("libc", SetLastError = true)]
    private static extern int grantpt(int descriptor);

    [DllImport("libc", SetLastError = true)]
    private static extern int unlockpt(int descriptor);

    [DllImport("libc", SetLastError = true)]
    private static extern int ptsname_r(int descriptor, byte[] name, nint length);

    [DllImport("libc", SetLastError = true)]
    private static extern int close(int descriptor);

    [DllImport("libc", SetLastError = true)]
    private static extern nint write(int descriptor, byte[] bytes, nint count);

    [DllImport("libc", SetLastError = true)]
    private static extern nint read(int descriptor, byte[] bytes, nint count);
#pragma warning restore SYSLIB1054, CA5392, IDE1006, SA1300
}
