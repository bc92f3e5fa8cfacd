using System.Runtime.InteropServices;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;

namespace TastingKit.Notebooks;

/// <summary>
/// Makes the interrupt button end the running cell. Jupyter sends the kernel's process the signal of Ctrl-C, and the kernel itself
/// leaves that to the runtime, which would end the process and all that the notebook holds.
/// </summary>
internal static class CellInterrupt
{
    private static readonly Lock Gate = new();
    private static PosixSignalRegistration? _registration;

    /// <summary>Listens from now on, once a process; not where no kernel runs the caller. Windows has no such signal: there Jupyter's button does nothing.</summary>
    internal static void Listen()
    {
        if (KernelInvocationContext.Current?.HandlingKernel?.RootKernel is not { } kernel)
            return;
        lock (Gate)
        {
            _registration ??= PosixSignalRegistration.Create(PosixSignal.SIGINT, signal =>
            {
                signal.Cancel = true;
                _ = kernel.SendAsync(new Cancel());
            });
        }
    }
}
