using System.Globalization;

namespace TastingKit.Calibration;

/// <summary>Whether a rule was kept.</summary>
public enum Verdict
{
    /// <summary>The rule is kept.</summary>
    Kept,

    /// <summary>The intervals do not hold, but the analysis says so of nearly every such log.</summary>
    Warned,

    /// <summary>The rule is broken.</summary>
    Broken,

    /// <summary>Nothing is asked of this quantity; it is reported.</summary>
    Reported,
}

/// <summary>One quantity of a cell, measured and held against its rule.</summary>
/// <param name="What">The quantity.</param>
/// <param name="Rule">The rule in words.</param>
/// <param name="Result">What was measured, with its simulation error.</param>
/// <param name="Aside">Further figures: interval width, bias, counts.</param>
/// <param name="Verdict">Whether the rule was kept by the measured figure itself.</param>
/// <param name="IsWithinError">Whether the rule is kept by some figure within three simulation errors of the measured one.</param>
public sealed record Finding(string What, string Rule, string Result, string Aside, Verdict Verdict, bool IsWithinError)
{
    /// <summary>The finding on one line.</summary>
    public override string ToString() => $"{What}: {Result} ({Rule}; {Aside}): {Verdict.ToString().ToLower(CultureInfo.InvariantCulture)}";
}

/// <summary>What a cell's years show: each quantity against its rule, the probability bins, and how often each caution fired.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="Years">Years measured.</param>
/// <param name="Findings">The quantities.</param>
/// <param name="Probabilities">Stated probabilities, by what they are of.</param>
/// <param name="Cautions">Share of years in which each caution fired, by name.</param>
public sealed record CellFindings(
    CalibrationCell Cell, int Years, IReadOnlyList<Finding> Findings,
    IReadOnlyDictionary<string, MeasuredProbability> Probabilities, IReadOnlyDictionary<string, double> Cautions)
{
    /// <summary>Whether no rule is broken beyond simulation error.</summary>
    public bool HoldsWithinError => Findings.All(finding => finding.Verdict != Verdict.Broken || finding.IsWithinError);
}
