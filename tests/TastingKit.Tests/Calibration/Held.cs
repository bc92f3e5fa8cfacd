using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>Findings of a cell tried on a few years, held against their rules with the error that so few years leave.</summary>
internal static class Held
{
    /// <summary>The rule is kept, or missed by no more than chance.</summary>
    public static void Holds(CellFindings found, string what)
    {
        var finding = found.Findings.Single(one => one.What == what);
        Assert.True(finding.Verdict == Verdict.Kept || finding.IsWithinError, finding.ToString());
    }

    /// <summary>The rule is broken, and by more than chance: what a planted fault must come to.</summary>
    public static void IsFoundOut(CellFindings found, string what)
    {
        var finding = found.Findings.Single(one => one.What == what);
        Assert.True(finding.Verdict == Verdict.Broken && !finding.IsWithinError, finding.ToString());
    }

    /// <summary>Notes an interval half as wide, and one with its sign swapped, against the truth.</summary>
    public static void PlantFaults(YearRecord record, string of, double estimate, double low, double high, double truth)
    {
        record.Cover($"halved: {of}", estimate, (low + estimate) / 2, (high + estimate) / 2, truth);
        record.Cover($"swapped sign: {of}", -estimate, -high, -low, truth);
    }
}
