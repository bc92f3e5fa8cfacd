namespace TastingKit;

/// <summary>A scale in the few words that stand beside its numbers.</summary>
internal static class ScaleText
{
    public static string Unit(Scale scale) => $"points of {NumberText.Fixed(scale.Min, 0)} to {NumberText.Fixed(scale.Max, 0)}";
}
