using System.CommandLine;

namespace TastingKit.Cli;

/// <summary>Makes Jupyter run the kit's notebooks.</summary>
internal static class KernelCommand
{
    internal static Command Create()
    {
        var command = new Command(
            "kernel",
            """
            Makes Jupyter run the kit's notebooks. The kernel needs no network, and opens no port but those that Jupyter asks for.

            Examples:
              tastingkit kernel install
              tastingkit kernel check
            """)
        {
            Subcommand(
                "install",
                """
                Registers the kernel 'C# with TastingKit' with Jupyter, for the person who runs the command. Do it again after a build.
                All of it lies in one folder, under the folder that JUPYTER_DATA_DIR names or Jupyter's usual one.

                Example:
                  tastingkit kernel install
                """,
                Install),
            Subcommand(
                "remove",
                """
                Deletes what 'install' has made, and says what.

                Example:
                  tastingkit kernel remove
                """,
                Remove),
            Subcommand(
                "check",
                """
                Says what is there, what is missing, and how to get it. Exit code 1 if anything is missing.

                Example:
                  tastingkit kernel check
                """,
                Check),
        };
        return command;
    }

    private static Command Subcommand(string name, string description, Func<KernelInstallation, int> run)
    {
        var command = new Command(name, description);
        command.SetAction(_ =>
        {
            try
            {
                return run(new KernelInstallation(JupyterData.Folder()));
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException)
            {
                throw new CommandException(error.Message);
            }
        });
        return command;
    }

    private static int Install(KernelInstallation installation)
    {
        var kept = installation.Install(KernelFiles.OfThisBuild);
        Console.Out.WriteLine($"Installed the kernel '{KernelInstallation.DisplayName}' in {installation.Folder}.");
        foreach (var folder in kept)
            Console.Out.WriteLine($"An older copy is in use and stays for now: {folder}.");
        Console.Out.WriteLine("Restart the kernels of notebooks that are open. Whether all else is there: tastingkit kernel check");
        return ExitCode.Done;
    }

    private static int Remove(KernelInstallation installation)
    {
        var removed = installation.Remove();
        foreach (var path in removed)
            Console.Out.WriteLine($"Deleted {path}");
        if (removed.Count == 0)
            Console.Out.WriteLine($"There was no kernel in {installation.Folder}.");
        return ExitCode.Done;
    }

    private static int Check(KernelInstallation installation)
    {
        var findings = new KernelCheck(installation).Run();
        foreach (var finding in findings)
        {
            Console.Out.WriteLine($"{(finding.Remedy is null ? "ok     " : "missing")}  {finding.What}");
            if (finding.Remedy is { } remedy)
                Console.Out.WriteLine($"         {remedy}");
        }

        return findings.All(finding => finding.Remedy is null) ? ExitCode.Done : ExitCode.SomethingMissing;
    }
}
