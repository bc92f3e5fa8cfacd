namespace TastingKit;

/// <summary>What is asked, in words and names.</summary>
/// <param name="Words">The question, to stand behind <c>settles</c> or <c>asked:</c>.</param>
/// <param name="CoffeeIds">The coffees that it is about; empty for coffees like the log's.</param>
/// <param name="IsNaming">Whether the best of several is to be named, and not one number told.</param>
/// <param name="Method">The part of the brew that it is about; nothing where it is about coffees.</param>
/// <param name="Levels">The two levels of that part.</param>
internal sealed record AskedQuestion(string Words, IReadOnlyList<string> CoffeeIds, bool IsNaming = false, Factor? Method = null, (string First, string Second) Levels = default)
{
    /// <summary>The cups of each coffee named.</summary>
    /// <exception cref="ArgumentException">One has no scored cup.</exception>
    public static IReadOnlyList<IReadOnlyList<Tasting>> CupsOf(IReadOnlyList<string> ids, IReadOnlyList<Tasting> cups)
    {
        var byCoffee = cups.ToLookup(cup => cup.Bag.Coffee.Id);
        BrewShelf.Unknown("coffee with a scored cup", ids, [.. byCoffee.Select(g => g.Key)]);
        return [.. ids.Select(id => (IReadOnlyList<Tasting>)[.. byCoffee[id]])];
    }
}
