using System.Globalization;
using System.Text;

namespace TastingKit.Calibration;

/// <summary>Sums up, on one page, the pages that runs of some analyses wrote.</summary>
public static class ResultsIndex
{
    /// <summary>Writes <c>results.md</c> beside the pages <c>results-NAME.md</c>.</summary>
    /// <param name="folder">The folder that holds them.</param>
    /// <exception cref="InvalidDataException">A page has no table of cells; the message names it.</exception>
    public static void Write(string folder)
    {
        var page = new StringBuilder("""
            # Calibration

            Made by `dotnet run -c Release --project tests/TastingKit.Calibration -- index` from the pages that `-- run --only NAME` writes, each with its
            seeds, rules and figures. What a reader asks of the analyses takes hours to simulate, so that they are gone through one at a time.

            | Page | Cells | Years a cell | Kept | Warned | Not settled | Broken |
            |---|---:|---:|---:|---:|---:|---:|

            """);
        foreach (var file in Directory.GetFiles(folder, "results-*.md").Order(StringComparer.Ordinal))
        {
            var cells = CellsOf(file);
            int Sum(int column) => cells.Sum(cell => cell[column]);
            var (fewest, most) = (cells.Min(cell => cell[0]), cells.Max(cell => cell[0]));
            page.Append(CultureInfo.InvariantCulture, $"| [{Title(file)}]({Path.GetFileName(file)}) | {cells.Length} | {(fewest == most ? fewest : $"{fewest} to {most}")} | {Sum(1)} | {Sum(2)} | {Sum(3)} | {Sum(4)} |\n");
        }

        File.WriteAllText(Path.Combine(folder, "results.md"), page.ToString());
    }

    /// <summary>Years, kept, warned, not settled and broken, cell by cell: the lines of the page's first table.</summary>
    private static int[][] CellsOf(string file)
    {
        int[][] cells = [.. File.ReadLines(file).SkipWhile(line => !line.StartsWith("| Cell |", StringComparison.Ordinal)).Skip(2)
            .TakeWhile(line => line.StartsWith("| ", StringComparison.Ordinal))
            .Select(line => line.Trim('|', ' ').Split('|')[1..].Select(number => int.Parse(number, CultureInfo.InvariantCulture)).ToArray())];
        return cells.Length > 0 ? cells : throw new InvalidDataException($"{file} has no table of cells, as a page that `run` wrote has.");
    }

    private static string Title(string file) => Path.GetFileNameWithoutExtension(file)["results-".Length..].Replace('-', ' ');
}
