using System.Globalization;
using System.Text;

namespace TastingKit.Calibration;

/// <summary>The results of all cells as one Markdown page. It carries no date and no duration: the same years give the same bytes.</summary>
public static class ResultsPage
{
    private const string NotSettled = "not settled";

    /// <summary>Writes the page.</summary>
    /// <param name="findings">What each cell that was run shows, in the order of the cells.</param>
    /// <param name="only">What the names of the analyses have in them, where not all were run.</param>
    public static string Write(IReadOnlyList<CellFindings> findings, string? only = null)
    {
        ArgumentNullException.ThrowIfNull(findings);
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # Calibration{(only is null ? "" : $": {only}")}

            Made by `dotnet run -c Release --project tests/TastingKit.Calibration -- run{(only is null ? "" : $" --only \"{only}\"")}`. Each cell is a kind of year, fixed beforehand
            with its seed in `Cells/CalibrationCells.cs`; the rules are in `Results/Rules.cs`. Every year is simulated, given to the
            analyses as a log, and what they say is held against the truth. "±" is one standard error of the simulation, with years as
            the independent units. A rule is kept; warned, where it is missed but kept by the years in which none of the
            cell's cautions fires, those that are cautioned of counting as kept; not settled, where it is missed by no more than three simulation errors; or broken. A full run has 4,000 years a cell.

            | Cell | Years | Kept | Warned | Not settled | Broken |
            |---|---:|---:|---:|---:|---:|

            """);
        foreach (var cell in findings)
        {
            int Count(string word) => cell.Findings.Count(finding => Word(finding) == word);
            page.Append(CultureInfo.InvariantCulture, $"| {cell.Cell.Name} | {cell.Years} | {Count("kept")} | {Count("warned")} | {Count(NotSettled)} | {Count("broken")} |\n");
        }

        foreach (var cell in findings)
            Append(page, cell);
        return page.ToString();
    }

    private static string Word(Finding finding) =>
        finding is { Verdict: Verdict.Broken, IsWithinError: true } ? NotSettled : finding.Verdict.ToString().ToLowerInvariant();

    private static void Append(StringBuilder page, CellFindings cell)
    {
        page.Append(CultureInfo.InvariantCulture, $"\n## {cell.Cell.Name}\n\n{cell.Cell.Why} Seed {cell.Cell.Seed}, {cell.Years} years.\n\n");
        page.Append("| Quantity | Rule | Result | | Verdict |\n|---|---|---:|---|---|\n");
        foreach (var finding in cell.Findings)
            page.Append(CultureInfo.InvariantCulture, $"| {finding.What} | {finding.Rule} | {finding.Result} | {finding.Aside} | {Word(finding)} |\n");
        foreach (var (what, measured) in cell.Probabilities)
        {
            page.Append(CultureInfo.InvariantCulture, $"\n{what}, stated against true:\n\n| Stated | Predictions | Mean stated | Came true | Standard error |\n|---|---:|---:|---:|---:|\n");
            foreach (var bin in measured.Bins)
                page.Append(CultureInfo.InvariantCulture, $"| {bin.Low:F1} to {bin.High:F1} | {bin.Count} | {bin.Stated:F3} | {bin.True:F3} | {bin.StandardError:F3} |\n");
        }

        if (cell.Cautions.Count == 0)
            return;
        page.Append("\nCautions, in this share of years:\n\n");
        foreach (var (caution, share) in cell.Cautions)
            page.Append(CultureInfo.InvariantCulture, $"- {caution}: {100 * share:F1} %\n");
    }
}
