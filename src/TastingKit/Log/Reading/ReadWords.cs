using System.Collections.ObjectModel;

namespace TastingKit.Reading;

/// <summary>
/// The words of a cell, shared by the cells of a column that say the same, with what the thread that takes the rows found out of them: in the same
/// object, since to fetch another for each row costs as much as all that is done with it.
/// </summary>
/// <param name="words">The words as written.</param>
internal sealed class ReadWords(string[] words) : ReadOnlyCollection<string>(words)
{
    /// <summary>The words in the vocabulary's form; <see langword="null"/> where nothing is known of them.</summary>
    public IReadOnlyList<string>? Canonical { get; private set; }

    /// <summary>What is written in the cell, where the vocabulary's form is another.</summary>
    public string? Written { get; private set; }

    /// <summary>The words in their column.</summary>
    public KnownWords.OfColumn.Word[] InColumn { get; private set; } = [];

    /// <summary>How often the list was met after the first time.</summary>
    public int Uses { get; set; }

    /// <summary>Keeps what was found out.</summary>
    public void Keep(IReadOnlyList<string> canonical, string? written, KnownWords.OfColumn.Word[] inColumn) =>
        (Canonical, Written, InColumn, Uses) = (canonical, written, inColumn, 0);

    /// <summary>Lets go of it.</summary>
    public void Forget() => (Canonical, Written, InColumn) = (null, null, []);
}
