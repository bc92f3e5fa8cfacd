namespace TastingKit.KilledWrites;

/// <summary>Writes two logs in turn, over one another and each into a folder of its own, until the process is killed.</summary>
public static class EndlessWriter
{
    /// <summary>The folder that is written over again and again.</summary>
    public const string Replaced = "replaced";

    /// <summary>What the names of the folders begin with that are each written once.</summary>
    public const string New = "new-";

    /// <summary>What is printed once the first files are there.</summary>
    public const string Ready = "ready";

    /// <summary>The two logs, which differ in every file.</summary>
    public static IReadOnlyList<TastingLog> Logs { get; } =
        [SimulatedYear.Create(new SimulationSettings(), seed: 1).Log, SimulatedYear.Create(new SimulationSettings(), seed: 2).Log];

    /// <summary>Writes without end.</summary>
    /// <param name="folder">Where.</param>
    public static void Run(string folder)
    {
        for (var i = 0; ; i++)
        {
            Logs[i % 2].Write(Path.Combine(folder, Replaced), overwrite: true);
            if (i == 0)
                Console.Out.WriteLine(Ready);
            Logs[i % 2].Write(Path.Combine(folder, FormattableString.Invariant($"{New}{i}")));
        }
    }
}
