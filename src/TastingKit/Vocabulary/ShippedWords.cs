using System.Collections.Frozen;
using TastingKit.Reading;

namespace TastingKit;

/// <summary>
/// Reads the kit's own lists. They are plain: a header, then a word a line with its family (of notes) and, parted by semicolons, the other ways
/// it is written; no quotes, no commas inside a cell.
/// </summary>
internal static class ShippedWords
{
    private static readonly (VocabularyKind Kind, string File)[] Files =
    [
        (VocabularyKind.Process, "processes.csv"), (VocabularyKind.Country, "countries.csv"), (VocabularyKind.Brewer, "brewers.csv"),
        (VocabularyKind.Variety, "varieties.csv"), (VocabularyKind.Note, "notes.csv"),
    ];

    /// <summary>Reads the lists and hands over, by kind, each folded form with its word, and the family of each folded note.</summary>
    public static Vocabulary Read(Func<FrozenDictionary<string, string>[], FrozenDictionary<string, string>, Vocabulary> make)
    {
        var words = Enum.GetValues<VocabularyKind>().Select(_ => new Dictionary<string, string>(StringComparer.Ordinal)).ToArray();
        var families = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (kind, file) in Files)
        {
            foreach (var (word, family, also) in Lines(file))
            {
                foreach (var form in also.Prepend(word))
                {
                    if (!words[(int)kind].TryAdd(Words.Folded(form), word))
                        throw new InvalidOperationException($"{file} has '{form}' twice: under '{words[(int)kind][Words.Folded(form)]}' and under '{word}'.");
                }

                if (family.Length > 0)
                    families.Add(Words.Folded(word), family);
            }
        }

        return make([.. words.Select(ofKind => ofKind.ToFrozenDictionary(StringComparer.Ordinal))], families.ToFrozenDictionary(StringComparer.Ordinal));
    }

    /// <summary>The lines of a list, its header left out.</summary>
    private static IEnumerable<(string Word, string Family, string[] Also)> Lines(string file)
    {
        using var stream = typeof(ShippedWords).Assembly.GetManifestResourceStream($"TastingKit.Vocabulary.{file}")
            ?? throw new InvalidOperationException($"The assembly does not hold {file}.");
        using var reader = new StreamReader(stream);
        var hasFamily = reader.ReadLine() == "word,family,also";
        while (reader.ReadLine() is { } line)
        {
            var cells = line.Split(',');
            yield return (cells[0], hasFamily ? cells[1] : "", cells[^1].Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
        }
    }
}
