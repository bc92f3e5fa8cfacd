namespace TastingKit;

/// <summary>What kind of question a scale answers.</summary>
public enum ScaleKind
{
    /// <summary>How much the taster likes it.</summary>
    Liking,

    /// <summary>How strong it is.</summary>
    Intensity,

    /// <summary>How good it is of its kind, as graders use it.</summary>
    Quality,

    /// <summary>Too little, just right, too much: the middle is best, so more is not better.</summary>
    JustRight,
}

/// <summary>The scale one attribute is scored on.</summary>
public sealed record Scale
{
    /// <summary>Makes a scale.</summary>
    /// <param name="attribute">What is scored.</param>
    /// <param name="kind">What the numbers mean.</param>
    /// <param name="min">Lowest step.</param>
    /// <param name="max">Highest step; above <paramref name="min"/>.</param>
    /// <param name="step">Distance between two steps; positive.</param>
    /// <exception cref="ArgumentException">The bounds are not finite, not in order, or the step is not positive.</exception>
    public Scale(TastingAttribute attribute, ScaleKind kind, double min, double max, double step)
    {
        if (!double.IsFinite(min) || !double.IsFinite(max) || max <= min)
            throw new ArgumentException($"A scale runs from a lower to a higher number; found {min} to {max}.", nameof(max));
        if (!double.IsFinite(step) || step <= 0)
            throw new ArgumentException($"The step of a scale is a positive number; found {step}.", nameof(step));
        (Attribute, Kind, Min, Max, Step) = (attribute, kind, min, max, step);
    }

    /// <summary>What is scored.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>What the numbers mean.</summary>
    public ScaleKind Kind { get; }

    /// <summary>Lowest step.</summary>
    public double Min { get; }

    /// <summary>Highest step.</summary>
    public double Max { get; }

    /// <summary>Distance between two neighbouring steps.</summary>
    public double Step { get; }

    /// <summary>Whether the value lies between the ends of the scale, both included.</summary>
    public bool Contains(double value) => value >= Min && value <= Max;

    /// <summary>Whether the value is one of the scale's steps, to within a thousandth of a step.</summary>
    public bool IsOnStep(double value)
    {
        var steps = (value - Min) / Step;
        return Math.Abs(steps - Math.Round(steps)) < 1e-3;
    }

    /// <summary>
    /// The scale an attribute has where a log does not say: liking from 1 to 9 for the score, as consumer testing has it,
    /// and intensity from 0 to 15 for all else, as descriptive testing has it; both in steps of a half.
    /// </summary>
    public static Scale Default(TastingAttribute attribute) =>
        attribute.Equals(TastingAttribute.Score)
            ? new Scale(attribute, ScaleKind.Liking, 1, 9, 0.5)
            : new Scale(attribute, ScaleKind.Intensity, 0, 15, 0.5);
}
