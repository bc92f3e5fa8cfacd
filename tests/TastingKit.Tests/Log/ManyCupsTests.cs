namespace TastingKit.Tests.Log;

/// <summary>A log of so many cups that each core looks at a part of them is put together as a small one is.</summary>
public class ManyCupsTests
{
    private const int Many = 60_000;

    private static readonly Bag Held = new() { Id = "B1", Coffee = new Coffee { Id = "B1" } };

    private static Tasting[] Cups() =>
    [
        .. Enumerable.Range(0, Many).Select(i => new Tasting { Id = $"t{i:D6}", Bag = Held, TastedAt = new DateTime(2025, 1, 1).AddMinutes(i), HasTimeOfDay = true, Score = 7 }),
    ];

    private static TastingLog Log(Tasting[] cups) => new(new LogContents { Name = "log", Bags = [Held], Tastings = cups });

    [Theory]
    [InlineData(0)]
    [InlineData(Many / 2)]
    [InlineData(Many - 1)]
    public void A_cup_of_another_bag_is_found_wherever_it_stands(int place)
    {
        var cups = Cups();
        cups[place] = cups[place] with { Bag = Held with { Id = "B2" } };
        Assert.Contains($"'t{place:D6}' is of bag 'B2'", Assert.Throws<ArgumentException>(() => Log(cups)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(Many / 2)]
    [InlineData(Many - 1)]
    public void Two_cups_that_are_out_of_order_or_share_an_identifier_are_found_wherever_they_stand(int place)
    {
        var cups = Cups();
        var inOrder = Log(cups).Tastings.ToArray();
        Assert.Equal(cups, inOrder);
        (cups[place - 1], cups[place]) = (cups[place], cups[place - 1]);
        Assert.Equal(inOrder, Log(cups).Tastings);
        cups[place] = cups[place] with { Id = cups[place - 1].Id };
        Assert.Contains($"identifier '{cups[place].Id}'", Assert.Throws<ArgumentException>(() => Log(cups)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(Many - 1)]
    public void An_attribute_of_one_cup_is_one_of_the_log(int place)
    {
        var cups = Cups();
        cups[place] = cups[place] with { Attributes = new Dictionary<TastingAttribute, double> { [TastingAttribute.Named("smoke")] = 3 } };
        Assert.Equal([TastingAttribute.Named("smoke")], Log(cups).Attributes);
    }
}
