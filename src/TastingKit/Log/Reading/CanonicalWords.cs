namespace TastingKit.Reading;

/// <summary>Puts the words of a coffee and of a cup into the vocabulary's form, and keeps what is written beside them where it differs.</summary>
internal static class CanonicalWords
{
    /// <summary>The coffee in known words.</summary>
    /// <param name="coffee">The coffee as written.</param>
    /// <param name="words">The words.</param>
    /// <param name="reports">The reports on its file.</param>
    /// <param name="line">Its line.</param>
    public static Coffee Of(Coffee coffee, KnownWords words, FileReports reports, int line)
    {
        Dictionary<string, string>? written = null;
        var countries = Many(coffee.Countries, words.Column(reports, "country", VocabularyKind.Country), line);
        if (!ReferenceEquals(countries, coffee.Countries))
            Keep("country", string.Join("; ", coffee.Countries));
        var (process, variety, roaster) = (One("process", VocabularyKind.Process, coffee.Process), One("variety", VocabularyKind.Variety, coffee.Variety),
            One("roaster", VocabularyKind.Roaster, coffee.Roaster));
        return written is null
            ? coffee
            : coffee with { Countries = countries, Process = process, Variety = variety, Roaster = roaster, AsWritten = written };

        string? One(string column, VocabularyKind kind, string? text)
        {
            if (text is null)
                return null;
            var canonical = words.Column(reports, column, kind).Canonical(text, line);
            if (!ReferenceEquals(canonical, text))
                Keep(column, text);
            return canonical;
        }

        void Keep(string column, string text) => (written ??= new Dictionary<string, string>(StringComparer.Ordinal)).Add(column, text);
    }

    /// <summary>The words of a list, the same list where each is as the vocabulary has it.</summary>
    public static IReadOnlyList<string> Many(IReadOnlyList<string> texts, KnownWords.OfColumn words, int line)
    {
        string[]? canonical = null;
        for (var i = 0; i < texts.Count; i++)
        {
            var word = words.Canonical(texts[i], line);
            if (word != texts[i])
                (canonical ??= [.. texts])[i] = word;
        }

        return canonical is null ? texts : Array.AsReadOnly(canonical);
    }
}
