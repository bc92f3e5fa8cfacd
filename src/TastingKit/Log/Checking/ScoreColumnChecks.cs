using TastingKit.Reading;
using static TastingKit.Checking.RowsToCheck;

namespace TastingKit.Checking;

/// <summary>Rules on a whole column of scores: another scale than said, noughts that mean none, one value throughout, cups without a score.</summary>
internal static class ScoreColumnChecks
{
    private const int FewestValues = 20;
    private const double ShareOff = 0.2;
    private const double ShareAtTop = 0.1;
    private const double ShareOfOneValue = 0.9;
    private const double MostNoughts = 0.25;

    /// <summary>Where scales end that people use.</summary>
    private static readonly double[] UsualTops = [3, 5, 7, 9, 10, 15, 20];

    public static void Run(RowsToCheck rows)
    {
        if (rows.ScoredColumns.Count == 0)
            return;
        var columns = rows.ScoredColumns.Select(_ => new Column()).ToArray();
        TastingAttribute[] attributes = [.. rows.ScoredColumns.Select(scale => scale.Attribute)];
        foreach (var cup in rows.Cups)
        {
            for (var c = 0; c < columns.Length; c++)
            {
                if (cup.ValueOf(attributes[c]) is { } value)
                    columns[c].Add(value);
            }
        }

        for (var c = 0; c < columns.Length; c++)
        {
            var scale = rows.ScoredColumns[c];
            OtherScale(rows, scale, columns[c]);
            if (columns[c].Count > 0)
            {
                Noughts(rows, scale, columns[c]);
                OneValue(rows, scale, columns[c]);
            }

            if (scale.Attribute.Equals(TastingAttribute.Score))
                Unscored(rows, columns[c].Count);
        }
    }

    private static void OtherScale(RowsToCheck rows, Scale scale, Column column)
    {
        var name = scale.Attribute.Name;
        var (off, between) = rows.CupReports.CountOffScale(name);
        var all = column.Count + off;
        if (all < FewestValues)
            return;
        var said = FormattableString.Invariant($"{scale.Min} to {scale.Max} in steps of {scale.Step}");
        string? why =
            off >= ShareOff * all ? FormattableString.Invariant($"{off} of {all} values lie off the scale, which is said to be {said}.")
            : between >= ShareOff * all ? FormattableString.Invariant($"{between} of {all} values lie between the steps of the scale, which is said to be {said}.")
            : scale.Kind == ScaleKind.Intensity && column.Max < scale.Max && UsualTops.Contains(column.Max) && column.AtMax >= ShareAtTop * column.Count
                ? FormattableString.Invariant($"No value is over {column.Max}, and {column.AtMax} of {column.Count} are just that, as at the top of a scale; it is said to be {said}.")
            : null;
        if (why is not null)
        {
            rows.CupReports.AboutColumn(Severity.Doubtful, name, "", new CellFault(Rule.OtherScale, why,
                $"the column's own scale in scales.csv: {name},{(scale.Kind == ScaleKind.JustRight ? "just-right" : scale.Kind.ToString().ToLowerInvariant())},min,max,step")
            {
                Beside = $"said to be {said}",
            });
        }
    }

    private static void Noughts(RowsToCheck rows, Scale scale, Column column)
    {
        if (column.Count < FewestValues || column.Noughts == 0 || column.Noughts > MostNoughts * column.Count || scale.Min < 0
            || column.LeastAbove < scale.Min + (scale.Max - scale.Min) / 4)
        {
            return;
        }

        var fault = new CellFault(Rule.NoughtForNone,
            FormattableString.Invariant($"Every other value of the column is {column.LeastAbove} or more; the nought was kept, and counts as one."),
            "an empty cell where nothing was scored");
        for (var i = 0; i < rows.Cups.Length; i++)
        {
            if (rows.Cups[i].ValueOf(scale.Attribute) == 0)
                rows.OnCup(i, Severity.Doubtful, scale.Attribute.Name, "0", fault);
        }
    }

    private static void OneValue(RowsToCheck rows, Scale scale, Column column)
    {
        // A value that nine in ten cups have outlasts all others in the vote; only then is it counted.
        if (column.Count < FewestValues || column.Votes < (2 * ShareOfOneValue - 1) * column.Count)
            return;
        var same = rows.Cups.Count(cup => cup.ValueOf(scale.Attribute) == column.Candidate);
        if (same >= ShareOfOneValue * column.Count)
        {
            rows.CupReports.AboutColumn(Severity.Information, scale.Attribute.Name, Number(column.Candidate), new CellFault(Rule.HardlyInforms,
                FormattableString.Invariant($"{same} of {column.Count} values are {column.Candidate}: the column can hardly tell cups apart."), "nothing, if it is so"));
        }
    }

    private static void Unscored(RowsToCheck rows, int scored)
    {
        var without = rows.Cups.Length - scored;
        if (without == 0)
            return;
        rows.CupReports.AboutColumn(Severity.Information, "score", "", new CellFault(Rule.NoScore,
            FormattableString.Invariant($"{without} of {rows.Cups.Length} cups have no score: kept, counted, and left out of analyses of scores."), "nothing, if none was given"));
    }

    /// <summary>What is kept of a column on the way through it: no value of it.</summary>
    private sealed class Column
    {
        public int Count { get; private set; }
        public int Noughts { get; private set; }
        public double LeastAbove { get; private set; } = double.PositiveInfinity;
        public double Max { get; private set; } = double.NegativeInfinity;
        public int AtMax { get; private set; }
        public double Candidate { get; private set; }
        public int Votes { get; private set; }

        public void Add(double value)
        {
            Count++;
            if (value == 0)
                Noughts++;
            else if (value < LeastAbove)
                LeastAbove = value;
            if (value > Max)
                (Max, AtMax) = (value, 1);
            else if (value == Max)
                AtMax++;
            if (Votes == 0)
                (Candidate, Votes) = (value, 1);
            else
                Votes += value == Candidate ? 1 : -1;
        }
    }
}
