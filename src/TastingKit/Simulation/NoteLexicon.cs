using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Plain words for what a cup tastes of, and how readily each is met in a process's coffees.</summary>
internal static class NoteLexicon
{
    private static readonly (string Word, double Washed, double Natural, double Honey, double WetHulled)[] Words =
    [
        ("lemon peel", 3, 0.5, 1, 0.2), ("lime", 2, 0.5, 1, 0.2), ("mandarin", 2, 1, 2, 0.3), ("grapefruit", 2, 0.5, 1, 0.5),
        ("apricot", 2, 2, 3, 0.3), ("ripe peach", 1.5, 2, 3, 0.2), ("yellow plum", 1.5, 1, 2.5, 0.3), ("green apple", 2.5, 0.3, 1, 0.2),
        ("pear", 2, 0.5, 2, 0.2), ("white grape", 2, 1, 1, 0.1), ("redcurrant", 2.5, 1, 1, 0.2), ("cranberry", 1.5, 1.5, 1, 0.2),
        ("strawberry jam", 0.2, 3.5, 1.5, 0.2), ("blueberry", 0.3, 3.5, 0.5, 0.1), ("raspberry", 0.8, 2.5, 1, 0.1), ("dark cherry", 0.7, 2, 1.5, 1),
        ("mango", 0.3, 2, 1.5, 0.2), ("pineapple", 0.3, 2.2, 1.2, 0.1), ("ripe banana", 0.1, 1.5, 0.7, 0.3), ("raisin", 0.5, 2, 1.5, 1.5),
        ("red wine", 0.2, 2.5, 0.6, 0.5), ("rum", 0.1, 1.8, 0.6, 0.7), ("jasmine", 2.5, 0.7, 0.6, 0.1), ("orange blossom", 2.2, 0.6, 1, 0.1),
        ("rose", 1.3, 1, 0.7, 0.1), ("black tea", 2.5, 0.5, 0.8, 0.5), ("green tea", 1, 0.1, 0.3, 0.1), ("honey", 1.5, 1, 2.5, 0.3),
        ("cane sugar", 1.8, 0.7, 2, 0.5), ("caramel", 1.2, 0.8, 2.5, 1), ("toffee", 0.8, 0.8, 1.8, 1), ("maple syrup", 0.4, 0.6, 1.5, 1),
        ("milk chocolate", 1.2, 1, 1.8, 1.2), ("dark chocolate", 0.8, 0.9, 1, 2.5), ("cocoa", 0.7, 0.9, 0.8, 2.5), ("hazelnut", 0.9, 0.4, 1.2, 1.2),
        ("almond", 1, 0.4, 1, 0.8), ("walnut", 0.5, 0.3, 0.5, 1.2), ("cedar", 0.2, 0.2, 0.2, 2.5), ("tobacco leaf", 0.1, 0.2, 0.1, 2.2),
        ("wet earth", 0.05, 0.1, 0.05, 2.5), ("clove", 0.2, 0.4, 0.2, 1.8), ("cardamom", 0.4, 0.6, 0.2, 1.2), ("cinnamon", 0.4, 0.6, 0.6, 1),
        ("thyme", 0.5, 0.1, 0.2, 0.8), ("malt", 0.8, 0.3, 0.8, 1), ("vanilla", 0.5, 0.7, 1.2, 0.5), ("oat biscuit", 0.8, 0.3, 0.8, 0.7),
    ];

    private static readonly double[] Probabilities = [0.88, 0.68, 0.48, 0.32, 0.20, 0.10];

    public static int Count => Words.Length;

    public static string Word(int index) => Words[index].Word;

    /// <summary>A coffee's own notes, each with the probability that one cup of it is said to have it.</summary>
    public static IReadOnlyList<NoteTruth> Draw(int process, RandomStream random)
    {
        var weights = new double[Words.Length];
        for (var i = 0; i < weights.Length; i++)
        {
            var word = Words[i];
            weights[i] = process switch { 0 => word.Washed, 1 => word.Natural, 2 => word.Honey, _ => word.WetHulled };
        }

        var notes = new NoteTruth[Probabilities.Length];
        for (var n = 0; n < notes.Length; n++)
        {
            var chosen = Chance.Pick(weights, random);
            weights[chosen] = 0;
            notes[n] = new NoteTruth(Words[chosen].Word, Probabilities[n] + (random.NextDouble() - 0.5) * 0.16);
        }

        return notes;
    }
}
