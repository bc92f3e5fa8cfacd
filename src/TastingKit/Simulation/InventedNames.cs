namespace TastingKit;

/// <summary>
/// The invented roasters, farms and lots of a simulated year, and how often a country's coffees are processed which way.
/// Nobody real is named; countries and botanical varieties are the trade's own.
/// </summary>
internal static class InventedNames
{
    /// <summary>Roasters that a simulated year can have at most.</summary>
    public const int MostRoasters = 20;

    /// <summary>Countries that a simulated year can have at most.</summary>
    public const int MostCountries = 10;

    /// <summary>Base processes that a simulated year can have at most.</summary>
    public const int MostProcesses = 4;

    public static IReadOnlyList<string> Processes { get; } = ["washed", "natural", "honey", "wet-hulled"];

    public static IReadOnlyList<string> Roasters { get; } =
    [
        "Wobbly Lighthouse", "Velvet Turnip", "Thimble & Vole", "Third Puddle", "Sleeping Anvil",
        "Paper Badger Society", "Nine Damp Acorns", "Left-Handed Comet", "Umbrella Orchard", "Porridge Observatory",
        "Gravel Waltz", "Tin Walrus Works", "Moth and Ladle", "Marmalade Lantern", "Borrowed Ladder",
        "Sixpence Heron", "Reluctant Tuba", "Custard Meridian", "Unfinished Bridge", "Whispering Shovel",
    ];

    /// <summary>Countries, with the weights of the processes in the order of <see cref="Processes"/>.</summary>
    public static IReadOnlyList<(string Name, double[] ProcessWeights)> Countries { get; } =
    [
        ("Ethiopia", [0.55, 0.40, 0.05, 0.0]),
        ("Guatemala", [0.65, 0.15, 0.20, 0.0]),
        ("Indonesia", [0.20, 0.10, 0.0, 0.70]),
        ("Rwanda", [0.70, 0.22, 0.08, 0.0]),
        ("Costa Rica", [0.30, 0.25, 0.45, 0.0]),
        ("Honduras", [0.55, 0.20, 0.25, 0.0]),
        ("Burundi", [0.65, 0.27, 0.08, 0.0]),
        ("Peru", [0.70, 0.12, 0.18, 0.0]),
        ("Bolivia", [0.55, 0.22, 0.23, 0.0]),
        ("Yemen", [0.0, 1.0, 0.0, 0.0]),
    ];

    public static IReadOnlyList<string> Varieties { get; } =
        ["local landrace", "Bourbon", "Red Bourbon", "Caturra", "Catuai", "Typica", "Pacamara", "Caturra; Bourbon"];

    public static IReadOnlyList<string> Regions { get; } = ["north", "south", "east", "west", "central highlands"];

    private static readonly string[] FarmFirst =
    [
        "Seven", "Crooked", "Lost", "Whistling", "Painted", "Sunken", "Hollow", "Twice-Told", "Mended", "Upside-Down",
        "Yesterday's", "Forgotten", "Humming", "Patchwork", "Backward", "Slanted",
    ];

    private static readonly string[] FarmSecond =
    [
        "Ladders", "Compasses", "Bells", "Staircase", "Windmill", "Fences", "Wheelbarrow", "Umbrellas", "Weathervane",
        "Buttons", "Signpost", "Thimbles", "Hammock", "Rowboat", "Chimneys", "Scarecrow",
    ];

    /// <summary>How many farms there are names for.</summary>
    public static int Farms => FarmFirst.Length * FarmSecond.Length;

    /// <summary>A farm's name; every index below <see cref="Farms"/> has its own.</summary>
    public static string Farm(int index) =>
        $"{FarmFirst[index % FarmFirst.Length]} {FarmSecond[index / FarmFirst.Length % FarmSecond.Length]}";
}
