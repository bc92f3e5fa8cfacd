using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>Builds small logs by hand, one cup a line.</summary>
internal sealed class TestLog
{
    private readonly Dictionary<string, Bag> _bags = [];
    private readonly List<Tasting> _cups = [];
    private readonly List<EquipmentChange> _changes = [];

    public TestLog Bag(string id, string? country = null, string? process = null, string? roaster = null, DateOnly? roasted = null, string? coffee = null)
    {
        _bags[id] = new Bag
        {
            Id = id,
            RoastDate = roasted,
            Coffee = new Coffee { Id = coffee ?? id, Name = $"Coffee {coffee ?? id}", Roaster = roaster, Process = process, Countries = country is null ? [] : [country] },
        };
        return this;
    }

    public TestLog Cup(string bag, string day, double? score, string? brewer = null, string? recipeFrom = null, Purpose purpose = Purpose.Verdict, bool failed = false, params string[] notes)
    {
        if (!_bags.ContainsKey(bag))
            Bag(bag);
        _cups.Add(new Tasting
        {
            Id = $"T{_cups.Count + 1}",
            Bag = _bags[bag],
            TastedAt = DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture).ToDateTime(TimeOnly.MinValue),
            Score = score,
            Brewer = brewer,
            RecipeFrom = recipeFrom,
            Purpose = purpose,
            Failed = failed,
            Notes = notes,
        });
        return this;
    }

    /// <summary>A scored cup of which a test sets what it needs.</summary>
    public TestLog Cup(string bag, string day, double? score, Func<Tasting, Tasting> with)
    {
        Cup(bag, day, score);
        _cups[^1] = with(_cups[^1]);
        return this;
    }

    public TestLog Change(string day, string what)
    {
        _changes.Add(new EquipmentChange(DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture), what, null, null));
        return this;
    }

    /// <summary>Ten bags tasted early and ten better ones tasted late: between bags the score rises with rest, within a bag it does not.</summary>
    public static TestLog OfBetterBagsTastedLater()
    {
        var log = new TestLog();
        var random = new RandomStream(3);
        for (var bag = 0; bag < 20; bag++)
        {
            var late = bag >= 10;
            log.Bag($"B{bag}", roasted: new DateOnly(2025, 1, 1));
            for (var cup = 0; cup < 8; cup++)
            {
                var day = (late ? 18 : 5) + (cup * 2);
                log.Cup($"B{bag}", new DateOnly(2025, 1, 1).AddDays(day).ToString("yyyy-MM-dd", null), 6 + (late ? 1 : 0) + (0.25 * random.NextNormal()));
            }
        }

        return log;
    }

    public TastingLog Build() => new(new LogContents { Name = "test", Bags = [.. _bags.Values], Tastings = _cups, Changes = _changes });
}
