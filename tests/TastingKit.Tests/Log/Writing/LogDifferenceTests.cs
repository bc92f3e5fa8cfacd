using System.Reflection;
using TastingKit.Tests.Log.Reading;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Writing;

/// <summary>The comparison itself must see a change of anything that a log holds.</summary>
public sealed class LogDifferenceTests
{
    private static readonly Bag Bag = new() { Id = "B1", Coffee = new Coffee { Id = "C1" } };
    private static readonly Tasting Cup = new() { Id = "T1", Bag = Bag, TastedAt = new DateTime(2025, 3, 14) };

    public static TheoryData<string> CupProperties => Settable(typeof(Tasting));

    public static TheoryData<string> BagProperties => Settable(typeof(Bag));

    public static TheoryData<string> CoffeeProperties => Settable(typeof(Coffee));

    [Theory]
    [MemberData(nameof(CupProperties))]
    public void A_changed_property_of_a_cup_is_seen(string property)
    {
        if (property is nameof(Tasting.Bag) or nameof(Tasting.AsWritten))
            return;
        Assert.NotNull(LogDifference.First(LogOf(Bag, Cup), LogOf(Bag, Changed(Cup, property))));
        Assert.Null(LogDifference.First(LogOf(Bag, Changed(Cup, property)), LogOf(Bag, Changed(Cup, property))));
    }

    [Theory]
    [MemberData(nameof(BagProperties))]
    public void A_changed_property_of_a_bag_is_seen(string property)
    {
        if (property == nameof(Bag.AsWritten))
            return;
        var changed = property == nameof(Bag.Coffee) ? Bag with { Coffee = new Coffee { Id = "C2" } } : Changed(Bag, property);
        Assert.NotNull(LogDifference.First(LogOf(Bag), LogOf(changed)));
    }

    [Theory]
    [MemberData(nameof(CoffeeProperties))]
    public void A_changed_property_of_a_coffee_is_seen(string property)
    {
        // How words were written before they were read as known ones is no part of what a log says.
        if (property != nameof(Coffee.AsWritten))
            Assert.NotNull(LogDifference.First(LogOf(Bag), LogOf(Bag with { Coffee = Changed(Bag.Coffee, property) })));
    }

    [Fact]
    public void Records_beside_the_cups_are_compared()
    {
        const string Verdicts = "published_on,bag_id,score,sentence\n2025-04-01,B1,7,fine\n";
        const string Tests = "test_id,tested_on,protocol,bag_a,bag_b,trials,correct\nD1,2025-04-01,triangle,B1,B1,8,3\n";
        const string Changes = "changed_on,what,from,to\n2025-04-01,water,soft,hard\n";
        const string Scales = "attribute,kind,min,max,step\nscore,liking,0,10,1\n";
        const string Bags = "bag_id\nB1\n";
        var full = LogInMemory.Read(("bags.csv", Bags), ("verdicts.csv", Verdicts), ("blind-tests.csv", Tests), ("changes.csv", Changes), ("scales.csv", Scales));

        Assert.NotNull(LogDifference.First(full, LogInMemory.Read(("bags.csv", Bags), ("verdicts.csv", Verdicts.Replace("fine", "good", StringComparison.Ordinal)), ("blind-tests.csv", Tests), ("changes.csv", Changes), ("scales.csv", Scales))));
        Assert.NotNull(LogDifference.First(full, LogInMemory.Read(("bags.csv", Bags), ("verdicts.csv", Verdicts), ("blind-tests.csv", Tests.Replace(",3", ",4", StringComparison.Ordinal)), ("changes.csv", Changes), ("scales.csv", Scales))));
        Assert.NotNull(LogDifference.First(full, LogInMemory.Read(("bags.csv", Bags), ("verdicts.csv", Verdicts), ("blind-tests.csv", Tests), ("scales.csv", Scales))));
        Assert.NotNull(LogDifference.First(full, LogInMemory.Read(("bags.csv", Bags), ("verdicts.csv", Verdicts), ("blind-tests.csv", Tests), ("changes.csv", Changes))));
    }

    private static TastingLog LogOf(Bag bag, params Tasting[] cups) =>
        new(new LogContents { Name = "log", Bags = [bag], Tastings = [.. cups.Select(cup => cup with { Bag = bag })] });

    private static TheoryData<string> Settable(Type type)
    {
        var data = new TheoryData<string>();
        foreach (var property in type.GetProperties().Where(property => property.CanWrite))
            data.Add(property.Name);
        return data;
    }

    private static T Changed<T>(T record, string property)
        where T : class
    {
        var copy = (T)typeof(T).GetMethod("<Clone>$")!.Invoke(record, null)!;
        var member = typeof(T).GetProperty(property)!;
        member.SetValue(copy, Other(member));
        return copy;
    }

    private static object Other(PropertyInfo property)
    {
        var type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
        return type switch
        {
            _ when type == typeof(string) => "other",
            _ when type == typeof(bool) => true,
            _ when type == typeof(int) => 3,
            _ when type == typeof(double) => 3.5,
            _ when type == typeof(decimal) => 3.5m,
            _ when type == typeof(DateTime) => new DateTime(2025, 3, 15),
            _ when type == typeof(DateOnly) => new DateOnly(2025, 3, 10),
            _ when type == typeof(TimeSpan) => TimeSpan.FromSeconds(5),
            _ when type == typeof(Purpose) => Purpose.Cupping,
            _ when type == typeof(BlindTo) => BlindTo.Label,
            _ when type == typeof(IReadOnlyList<string>) => new[] { "other" },
            _ when type == typeof(IReadOnlyDictionary<string, string>) => new Dictionary<string, string> { ["a"] = "b" },
            _ when type == typeof(IReadOnlyDictionary<TastingAttribute, double>) => new Dictionary<TastingAttribute, double> { [TastingAttribute.Body] = 2 },
            _ => throw new InvalidOperationException($"No other value of {type} is known; add one."),
        };
    }
}
