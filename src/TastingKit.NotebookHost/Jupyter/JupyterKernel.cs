using System.Diagnostics;
using System.Globalization;
using NetMQ;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>This process as a Jupyter kernel.</summary>
internal static class JupyterKernel
{
    /// <summary>The argument that asks for it; the path of the connection file follows.</summary>
    internal const string Argument = "jupyter";

    /// <summary>What every notebook of the kit begins with, but for what it would change in this process.</summary>
    private const string FirstLines = "#r \"TastingKit.Notebooks\"\nusing TastingKit; using TastingKit.Charts; using TastingKit.Notebooks;\ntypeof(TastingNotebook).Name";

    /// <summary>Serves Jupyter until it asks for the end, or ends itself.</summary>
    /// <returns>The exit code.</returns>
    internal static int Run(string connectionPath)
    {
        EndWithJupyter();
        // Jupyter sends an interrupt as a message; the signal of Ctrl-C is for whoever owns the terminal.
        Console.CancelKeyPress += (_, pressed) => pressed.Cancel = true;
        JupyterSockets sockets;
        try
        {
            sockets = new JupyterSockets(ConnectionFile.Read(connectionPath));
        }
        catch (Exception error) when (error is JupyterException or NetMQException)
        {
            Console.Error.WriteLine(error.Message);
            return 2;
        }

        using (sockets)
        {
            var session = new JupyterSession(sockets);
            var answering = Task.Run(async () =>
            {
                try
                {
                    await session.RunAsync();
                }
                finally
                {
                    sockets.Stop();
                }
            });
            _ = Task.Run(WarmUpAsync);
            sockets.Run();
            if (answering.IsFaulted)
                Console.Error.WriteLine(answering.Exception.GetBaseException());
        }

        // A cell may still be at it.
        Environment.Exit(0);
        return 0;
    }

    /// <summary>
    /// The compiler itself is compiled while it is first used: that is done while a person still reads, in a kernel that is thrown
    /// away, so that the first cell does not wait for it.
    /// </summary>
    private static async Task WarmUpAsync()
    {
        using var kernel = new CellKernel(_ => { });
        await kernel.RunAsync(new RunRequest.Cell(0, FirstLines));
    }

    /// <summary>Jupyter asks its kernels to end when it ends; one that was killed can't.</summary>
    private static void EndWithJupyter()
    {
        // On Windows the variable holds a handle instead of a process.
        if (OperatingSystem.IsWindows() || !int.TryParse(Environment.GetEnvironmentVariable("JPY_PARENT_PID"), CultureInfo.InvariantCulture, out var parent))
            return;
        Task.Run(async () =>
        {
            try
            {
                using var jupyter = Process.GetProcessById(parent);
                await jupyter.WaitForExitAsync();
            }
            catch (ArgumentException)
            {
                // It has ended already.
            }

            Environment.Exit(3);
        });
    }
}
