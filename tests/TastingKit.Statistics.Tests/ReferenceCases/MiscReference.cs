using System.Text.Json;

namespace TastingKit.Statistics.Tests;

/// <summary>The stored tables of inputs and answers in ReferenceCases/misc.</summary>
internal static class MiscReference
{
    private static readonly JsonElement Root = JsonDocument.Parse(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "ReferenceCases", "misc", "reference.json"))).RootElement;

    /// <summary>The names of all blocks, in order.</summary>
    public static IEnumerable<string> BlockNames => Root.EnumerateObject().Select(b => b.Name).Where(n => n is not ("case" or "title" or "software"));

    /// <summary>The block of a name; a missing one fails the test that asks for it.</summary>
    public static JsonElement Block(string name) => Root.GetProperty(name);

    /// <summary>A figure; infinities are stored as words, since JSON has none.</summary>
    public static double Number(this JsonElement element, string property)
    {
        var value = element.GetProperty(property);
        return value.ValueKind == JsonValueKind.String
            ? value.GetString() switch
            {
                "Infinity" => double.PositiveInfinity,
                "-Infinity" => double.NegativeInfinity,
                var other => throw new FormatException($"{property} is '{other}', not a number."),
            }
            : value.GetDouble();
    }

    public static double[] Numbers(this JsonElement element, string property) =>
        [.. element.GetProperty(property).EnumerateArray().Select(v => v.GetDouble())];

    public static double[,] Matrix(this JsonElement element, string property)
    {
        double[][] rows = [.. element.GetProperty(property).EnumerateArray().Select(r => r.EnumerateArray().Select(v => v.GetDouble()).ToArray())];
        var matrix = new double[rows.Length, rows[0].Length];
        for (int i = 0; i < rows.Length; i++)
        {
            for (int j = 0; j < rows[i].Length; j++)
            {
                matrix[i, j] = rows[i][j];
            }
        }

        return matrix;
    }
}
