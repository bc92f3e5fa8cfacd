using System.Globalization;

namespace TastingKit.Reading;

/// <summary>A column of scores: the overall one or an attribute's, held against the attribute's scale.</summary>
/// <param name="scale">The scale.</param>
/// <param name="scaleIsStated">Whether the log states it, or it is the default.</param>
/// <param name="index">The attribute's place in the row; -1 for the overall score.</param>
internal sealed class ScoreColumn(Scale scale, bool scaleIsStated, int index) : Column<TastingRow>(scale.Attribute.Name)
{
    private readonly string _expected =
        string.Create(CultureInfo.InvariantCulture, $"a number from {scale.Min} to {scale.Max} in steps of {scale.Step}")
        + (scaleIsStated ? ", as scales.csv has it" : ", or a row in scales.csv that states another scale");

    /// <inheritdoc/>
    public override void Read(in Cell cell, TastingRow row, RecordReports reports)
    {
        if (cell.IsEmpty)
            return;
        var known = cell.Column.Judged<double>();
        if (known.TryGet(cell, out var clean))
        {
            Keep(row, clean);
            return;
        }

        var judged = NumberText.Judge(cell, _expected);
        if (judged.Fault is { } fault)
        {
            row.Noughts[index + 1] = false;
            reports.Cell(Severity.Doubtful, cell, fault);
            return;
        }

        var value = judged.Value;
        row.Noughts[index + 1] = value == 0;
        if (!scale.Contains(value))
        {
            reports.Cell(Severity.Doubtful, cell, new CellFault(Rule.ScoreOffScale, "It lies off its scale; the cell was left missing.", _expected));
            return;
        }

        if (!scale.IsOnStep(value))
            reports.Cell(Severity.Doubtful, cell, new CellFault(Rule.ScoreBetweenSteps, "It lies between two steps of its scale; the value was kept.", _expected));
        else
            known.Add(cell, value);
        Keep(row, value);
    }

    private void Keep(TastingRow row, double value)
    {
        row.Noughts[index + 1] = value == 0;
        if (index < 0)
            row.Score = value;
        else
            row.Attributes[index] = value;
    }

    /// <inheritdoc/>
    public override (string Kept, string Other)? Merge(TastingRow into, TastingRow from) =>
        throw new NotSupportedException("Scores of two cups are never merged.");
}
