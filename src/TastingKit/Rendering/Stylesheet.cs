namespace TastingKit;

/// <summary>The one stylesheet of results and charts, on pages of the kit's own and in notebooks.</summary>
public static class Stylesheet
{
    /// <summary>
    /// The style rules. All of them are kept to elements inside the class <c>tk</c>, so that a notebook's own look stays as it is.
    /// </summary>
    public static string Css { get; } = RenderingAsset.Read("results.css");
}
