using System.Diagnostics;

namespace TastingKit.KilledWrites;

/// <summary>Writes two logs in turn, over one another and each into a folder of its own, until the process is killed.</summary>
public static class EndlessWriter
{
    /// <summary>The folder that is written over again and again.</summary>
    public const string Replaced = "replaced";

    /// <summary>What the names of the folders begin with that are each written once.</summary>
    public const string New = "new-";

    /// <summary>Rounds before the code is compiled, and the time goes into the writing.</summary>
    private const int WarmUp = 4;

    /// <summary>What is printed once it writes at its pace.</summary>
    public const string Ready = "ready";

    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

    /// <summary>The two logs, which differ in every file.</summary>
    public static IReadOnlyList<TastingLog> Logs { get; } =
        [SimulatedYear.Create(new SimulationSettings(), seed: 1).Log, SimulatedYear.Create(new SimulationSettings(), seed: 2).Log];

    /// <summary>Writes over and over, for two minutes at the most.</summary>
    /// <param name="folder">Where.</param>
    public static void Run(string folder)
    {
        // Whoever was to kill it may have been killed itself.
        var since = Stopwatch.StartNew();
        for (var i = 0; since.Elapsed < Longest; i++)
        {
            Logs[i % 2].Write(Path.Combine(folder, Replaced), overwrite: true);
            Logs[i % 2].Write(Path.Combine(folder, FormattableString.Invariant($"{New}{i}")));
            if (i == WarmUp)
                Console.Out.WriteLine(Ready);
        }
    }
}
