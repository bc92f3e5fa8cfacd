using System.Collections.ObjectModel;

namespace TastingKit;

/// <summary>The one empty set of unnamed columns, so that a clean log allocates none a row.</summary>
internal static class EmptyColumns
{
    public static IReadOnlyDictionary<string, string> Instance { get; } = ReadOnlyDictionary<string, string>.Empty;
}
