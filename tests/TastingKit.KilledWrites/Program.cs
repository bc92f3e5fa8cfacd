using System.Globalization;

namespace TastingKit.KilledWrites;

/// <summary>Kills a process that writes logs without end, and looks at what it left.</summary>
public static class Program
{
    private const string Usage = """
        KilledWrites kill TIMES [SEED]   kills a writing process so many times, at random moments, and says what was found each time
        KilledWrites write FOLDER        writes into FOLDER until it is killed
        """;

    /// <summary>Runs one of the two.</summary>
    /// <param name="arguments">As the usage has it.</param>
    /// <returns>0; 1 where a file was found that is neither the old nor the new one; 2 for wrong arguments.</returns>
    public static int Main(string[] arguments)
    {
        ArgumentNullException.ThrowIfNull(arguments);
        switch (arguments)
        {
            case ["write", var folder]:
                EndlessWriter.Run(folder);
                return 0;
            case ["kill", var times, ..] when int.TryParse(times, CultureInfo.InvariantCulture, out var kills) && kills > 0:
                var seed = arguments.Length > 2 ? ulong.Parse(arguments[2], CultureInfo.InvariantCulture) : 1;
                var result = KillRun.Run(kills, seed, Console.Out.WriteLine);
                Console.Out.WriteLine(result);
                return result.Broken.Count == 0 ? 0 : 1;
            default:
                Console.Error.WriteLine(Usage);
                return 2;
        }
    }
}
