namespace TastingKit.Calibration;

/// <summary>An analysis under calibration: it looks at a year's log alone, and is then held against the year's truth.</summary>
public interface ICalibratedAnalysis
{
    /// <summary>The analysis's name, which its quantities and cautions begin with.</summary>
    string Name { get; }

    /// <summary>Runs the analysis and notes what it said against what is true.</summary>
    /// <param name="year">The simulated year.</param>
    /// <param name="record">Where intervals, rates, probabilities and cautions are noted.</param>
    void Examine(SimulatedYear year, YearRecord record);
}
