namespace TastingKit.Charts;

/// <summary>Lines and bands that marks are held against; they run the whole height and lie below the marks.</summary>
internal static class Guides
{
    /// <summary>An upright line at a value.</summary>
    public static DynamicObj.DynamicObj Upright(object at, string colour) => FigurePart.Of(
        ("type", "line"), ("layer", "below"), ("xref", "x"), ("x0", at), ("x1", at), ("yref", "paper"), ("y0", 0), ("y1", 1),
        ("line", FigurePart.Of(("color", colour), ("width", 1.5), ("dash", "dash"))));

    /// <summary>An upright band between two values.</summary>
    public static DynamicObj.DynamicObj UprightBand(object from, object to, string colour = Palette.Quiet) => FigurePart.Of(
        ("type", "rect"), ("layer", "below"), ("xref", "x"), ("x0", from), ("x1", to), ("yref", "paper"), ("y0", 0), ("y1", 1),
        ("fillcolor", Palette.Veil(colour)), ("line", FigurePart.Of(("width", 0))));
}
