using System.Collections.ObjectModel;

namespace TastingKit.Reading;

/// <summary>The words of a cell, shared by the cells of a column that say the same.</summary>
/// <param name="words">The words as written.</param>
internal sealed class ReadWords(string[] words) : ReadOnlyCollection<string>(words)
{
    /// <summary>What is known of the words, found out by the thread that takes the rows; <see langword="null"/> where it is not kept.</summary>
    public OtherWords.Known? Known { get; set; }
}
