namespace TastingKit;

/// <summary>Something scored in a cup: the overall score, or one attribute such as sweetness. Equal by name, case ignored.</summary>
public sealed class TastingAttribute : IEquatable<TastingAttribute>
{
    private TastingAttribute(string name) => Name = name;

    /// <summary>The overall score: how good the cup was.</summary>
    public static TastingAttribute Score { get; } = new("score");

    /// <summary>Aroma.</summary>
    public static TastingAttribute Aroma { get; } = new("aroma");

    /// <summary>Acidity.</summary>
    public static TastingAttribute Acidity { get; } = new("acidity");

    /// <summary>Sweetness.</summary>
    public static TastingAttribute Sweetness { get; } = new("sweetness");

    /// <summary>Bitterness.</summary>
    public static TastingAttribute Bitterness { get; } = new("bitterness");

    /// <summary>Body: how heavy the cup feels.</summary>
    public static TastingAttribute Body { get; } = new("body");

    /// <summary>Clarity: how clean and distinct the cup is.</summary>
    public static TastingAttribute Clarity { get; } = new("clarity");

    /// <summary>Aftertaste: how long and how pleasant it stays.</summary>
    public static TastingAttribute Aftertaste { get; } = new("aftertaste");

    /// <summary>The attributes that a log has columns for without further ado, the score left out.</summary>
    public static IReadOnlyList<TastingAttribute> Defaults { get; } =
        [Aroma, Acidity, Sweetness, Bitterness, Body, Clarity, Aftertaste];

    /// <summary>The attribute's name in lower case, as its column is headed.</summary>
    public string Name { get; }

    /// <summary>An attribute of the reviewer's own.</summary>
    /// <param name="name">The column's header. White space at the ends is dropped and case ignored.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public static TastingAttribute Named(string name)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        var own = new TastingAttribute(name.Trim().ToLowerInvariant());
        // The same object for the same name is found without comparing letters, in each of a million cups.
        return Score.Equals(own) ? Score : Defaults.FirstOrDefault(own.Equals) ?? own;
    }

    /// <inheritdoc/>
    public bool Equals(TastingAttribute? other) => other is not null && Name == other.Name;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as TastingAttribute);

    /// <inheritdoc/>
    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(Name);

    /// <summary>The attribute's name.</summary>
    public override string ToString() => Name;
}
