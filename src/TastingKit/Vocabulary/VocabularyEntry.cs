namespace TastingKit;

/// <summary>What a word is a word for.</summary>
public enum VocabularyKind
{
    /// <summary>A base process.</summary>
    Process,

    /// <summary>A country of origin.</summary>
    Country,

    /// <summary>A brewer.</summary>
    Brewer,

    /// <summary>A roaster. The kit knows none; the user's own vocabulary may.</summary>
    Roaster,

    /// <summary>A botanical variety.</summary>
    Variety,

    /// <summary>A tasting note.</summary>
    Note,
}

/// <summary>One line of the user's vocabulary.</summary>
/// <param name="Kind">What the word is a word for.</param>
/// <param name="Written">How it is written in the log; case, accents, spaces and marks don't count.</param>
/// <param name="Means">The word that it means. Where that is the word itself, the word is kept as it stands, whatever the kit would read it as.</param>
public sealed record VocabularyEntry(VocabularyKind Kind, string Written, string Means);
