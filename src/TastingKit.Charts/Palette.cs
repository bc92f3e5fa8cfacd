namespace TastingKit.Charts;

/// <summary>
/// The colours of marks. Chosen by search: every pair, the grey included, keeps its distance for readers with each kind of
/// dichromatic sight, and each colour stands out from the light page and the dark one. Text, axes and background take theirs
/// from the page. No chart tells two things apart by colour alone.
/// </summary>
internal static class Palette
{
    /// <summary>What a chart is about: estimates and their intervals.</summary>
    public const string Main = "#2093df";

    /// <summary>What is marked against it.</summary>
    public const string Second = "#c67d10";

    /// <summary>A third kind.</summary>
    public const string Third = "#227755";

    /// <summary>What is undecided, raw or in the background.</summary>
    public const string Quiet = "#7f8790";

    /// <summary>The colours that may meet in one chart.</summary>
    public static IReadOnlyList<string> All { get; } = [Main, Second, Third, Quiet];

    /// <summary>A colour that lets what is under it through, for bands.</summary>
    /// <param name="colour">One of the palette's colours.</param>
    /// <param name="alpha">Its part from 0 (not there) to 255.</param>
    public static string Veil(string colour, byte alpha = 0x30) => $"{colour}{alpha:x2}";
}
