namespace TastingKit;

/// <summary>What the taster did not know when scoring a cup.</summary>
[Flags]
public enum BlindTo
{
    /// <summary>Everything was known.</summary>
    Nothing = 0,

    /// <summary>The label (roaster, price, name) was hidden.</summary>
    Label = 1,

    /// <summary>Which coffee it was, was hidden.</summary>
    Coffee = 2,

    /// <summary>Which brewer made it, was hidden.</summary>
    Brewer = 4,
}
