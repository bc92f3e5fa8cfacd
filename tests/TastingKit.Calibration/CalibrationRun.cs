namespace TastingKit.Calibration;

/// <summary>Simulates a cell's years and tries the analyses on each.</summary>
public static class CalibrationRun
{
    /// <summary>One year of a cell, held against its truth.</summary>
    public static YearRecord Examine(CalibrationCell cell, int year, IReadOnlyList<ICalibratedAnalysis> analyses)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(analyses);
        var simulated = SimulatedYear.Create(cell.Settings, cell.SeedOf(year));
        var record = new YearRecord { Year = year };
        foreach (var analysis in analyses)
            analysis.Examine(simulated, record);
        return record;
    }

    /// <summary>Years of a cell, none of them kept on disk.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="years">How many years, from the first.</param>
    /// <param name="analyses">The analyses tried.</param>
    /// <param name="cores">Years computed at once; the result does not depend on it.</param>
    public static CellFindings Run(CalibrationCell cell, int years, IReadOnlyList<ICalibratedAnalysis> analyses, int cores)
    {
        var records = new YearRecord[years];
        Parallel.For(0, years, new ParallelOptions { MaxDegreeOfParallelism = cores }, year => records[year] = Examine(cell, year, analyses));
        return Rules.Judge(cell, records);
    }

    /// <summary>Years of a cell, kept on disk as they are made; those already there are not made again.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="years">How many years, from the first.</param>
    /// <param name="analyses">The analyses tried.</param>
    /// <param name="cores">Years computed at once; the result does not depend on it.</param>
    /// <param name="folder">Where records are kept.</param>
    /// <param name="progress">Told of every year made: how many of the cell's years are there.</param>
    /// <param name="cancellation">Breaks the run off; the years made so far stay.</param>
    public static CellFindings Run(
        CalibrationCell cell, int years, IReadOnlyList<ICalibratedAnalysis> analyses, int cores, string folder,
        Action<int> progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(progress);
        var record = CellRecord.Open(folder, cell.Name);
        int[] missing = [.. Enumerable.Range(0, years).Where(year => !record.Years.ContainsKey(year))];
        var made = years - missing.Length;
        Parallel.ForEach(missing, new ParallelOptions { MaxDegreeOfParallelism = cores, CancellationToken = cancellation }, year =>
        {
            record.Add(Examine(cell, year, analyses));
            progress(Interlocked.Increment(ref made));
        });
        return Rules.Judge(cell, [.. record.Years.Values.Where(year => year.Year < years)]);
    }
}
