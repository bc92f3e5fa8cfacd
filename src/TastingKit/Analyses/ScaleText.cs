namespace TastingKit;

/// <summary>A scale in the few words that stand beside its numbers, and what is small on it.</summary>
internal static class ScaleText
{
    private const double HalfAPointShare = 0.5 / 8;

    /// <summary>Half a point of a scale from 1 to 9, in points of this one.</summary>
    public static double HalfAPoint(Scale scale) => HalfAPointShare * (scale.Max - scale.Min);

    public static string Unit(Scale scale) => $"points of {NumberText.Fixed(scale.Min, 0)} to {NumberText.Fixed(scale.Max, 0)}";

    /// <summary>A step of a scale with the decimals that steps of a half need, and more only where it has more.</summary>
    public static string Step(double step) => NumberText.Fixed(step, Math.Abs((step * 2) - Math.Round(step * 2)) < 1e-6 ? 1 : 2);
}
