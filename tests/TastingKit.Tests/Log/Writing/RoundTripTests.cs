using TastingKit.Reading;
using TastingKit.Statistics;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Writing;

/// <summary>A log, written and read, is the same log: over simulated years, and over logs of awkward texts and odd numbers.</summary>
public sealed class RoundTripTests
{
    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(13)]
    public void A_simulated_year_comes_back(ulong seed) => AssertComesBack(SimulatedYear.Create(new SimulationSettings(), seed).Log);

    [Fact]
    public void Logs_of_awkward_texts_come_back()
    {
        for (var seed = 1UL; seed <= 300; seed++)
        {
            var log = AwkwardLog(new RandomStream(seed));
            try
            {
                AssertComesBack(log);
            }
            catch (Exception error)
            {
                throw new InvalidOperationException($"Seed {seed}: {error.Message}", error);
            }
        }
    }

    [Fact]
    public void The_awkward_texts_are_awkward()
    {
        var log = AwkwardLog(new RandomStream(1));
        var texts = Enumerable.Range(1, 50).SelectMany(seed => AwkwardLog(new RandomStream((ulong)seed)).Tastings).Select(cup => cup.Remark ?? "").ToList();
        Assert.All("\"',;\n=\u8336".ToCharArray(), letter => Assert.Contains(texts, text => text.Contains(letter, StringComparison.Ordinal)));
        Assert.Contains(texts, text => text.StartsWith('='));
        Assert.Contains(texts, text => text.StartsWith("'=", StringComparison.Ordinal));
        Assert.NotEmpty(log.Tastings);
    }

    private static void AssertComesBack(TastingLog log)
    {
        var files = LogWriter.Lay(log);
        var readBack = LogReader.Read(LogFiles.InMemory(log.Name, files.Select(file => KeyValuePair.Create(file.Name, new ReadOnlyMemory<byte>(file.Bytes)))), CancellationToken.None);
        Assert.Null(LogDifference.First(log, readBack));
        Assert.Equal((log.Bags.Count, log.Tastings.Count, log.Changes.Count), (readBack.Bags.Count, readBack.Tastings.Count, readBack.Changes.Count));
        Assert.DoesNotContain(readBack.Problems, problem => problem.Severity == Severity.Rejected);
        // What was read and is written again is the same to the byte.
        Assert.All(files.Zip(LogWriter.Lay(readBack)), pair => Assert.Equal(pair.First.Bytes, pair.Second.Bytes));
    }

    private static TastingLog AwkwardLog(RandomStream random)
    {
        var ownAttribute = TastingAttribute.Named("depth " + Text(random, "?"));
        var bags = Enumerable.Range(0, 1 + random.NextInt32(5)).Select(i => new Bag
        {
            Id = $"{Text(random)}{i}",
            Coffee = new Coffee
            {
                Id = $"C{i}",
                Name = Maybe(random, Text),
                Roaster = Maybe(random, Text),
                Countries = [.. Enumerable.Range(0, random.NextInt32(3)).Select(_ => Text(random, ";"))],
                Producer = Maybe(random, Text),
                Process = Maybe(random, Text),
                Added = Maybe(random, Text),
                Decaf = random.NextInt32(3) switch { 0 => true, 1 => false, _ => null },
            },
            RoastDate = random.NextInt32(2) == 0 ? new DateOnly(2024, 1, 1).AddDays(random.NextInt32(400)) : null,
            NetWeightGrams = random.NextInt32(2) == 0 ? Number(random) * 1000 : null,
            Price = random.NextInt32(2) == 0 ? random.NextInt32(100_000) / 100m : null,
            Currency = Maybe(random, Text),
            OtherColumns = random.NextInt32(2) == 0 ? new Dictionary<string, string> { ["own " + Text(random)] = Text(random) } : new Dictionary<string, string>(),
        }).ToList();
        var cups = Enumerable.Range(0, random.NextInt32(12)).Select(i => new Tasting
        {
            Id = $"{Text(random)}{i}",
            Bag = bags[random.NextInt32(bags.Count)],
            TastedAt = new DateTime(2025, 1, 1).AddDays(random.NextInt32(300)).AddSeconds(random.NextInt32(86_400)).AddTicks(random.NextInt32(2) * 1_234_567),
            HasTimeOfDay = true,
            Position = random.NextInt32(2) == 0 ? 1 + random.NextInt32(9) : null,
            Purpose = (Purpose)random.NextInt32(4),
            Failed = random.NextInt32(5) == 0,
            Brewer = Maybe(random, Text),
            Recipe = Maybe(random, Text),
            DoseGrams = random.NextInt32(2) == 0 ? Number(random) * 100 : null,
            WaterCelsius = random.NextInt32(2) == 0 ? Number(random) * 100 : null,
            BrewTime = random.NextInt32(2) == 0 ? TimeSpan.FromTicks(1 + (long)(Number(random) * TimeSpan.TicksPerHour)) : null,
            BlindTo = (BlindTo)random.NextInt32(8),
            Score = random.NextInt32(4) == 0 ? null : 1 + Number(random) * 8,
            Attributes = random.NextInt32(3) == 0
                ? new Dictionary<TastingAttribute, double>()
                : new Dictionary<TastingAttribute, double> { [TastingAttribute.Body] = Number(random) * 15, [ownAttribute] = Number(random) * 15 },
            Notes = [.. Enumerable.Range(0, random.NextInt32(4)).Select(_ => Text(random, ";"))],
            Remark = Maybe(random, Text),
        }).ToList();
        return new TastingLog(new LogContents
        {
            Name = "awkward",
            Bags = bags,
            Tastings = cups,
            Changes = [.. Enumerable.Range(0, random.NextInt32(3)).Select(i => new EquipmentChange(new DateOnly(2025, 1, 1).AddDays(i), "water", Maybe(random, Text), Text(random)))],
            Vocabulary = Vocabulary.Shipped.With(random.NextInt32(2) == 0 ? [] : [new VocabularyEntry(VocabularyKind.Note, "own " + Text(random), "own " + Text(random))]),
        });
    }

    private static string Text(RandomStream random) => Text(random, "");

    /// <summary>A text of letters that files are apt to break on, but for those that the column itself parts texts by.</summary>
    private static string Text(RandomStream random, string without)
    {
        string[] fronts = ["", "", "=", "'=", "''", "-", "+", "@", "\"", "'", ",", "\uFF1D", "#"];
        const string Inside = "abz ,\"'=\n\t\u00E9\u8336\u0416|\\%";
        var inside = new string([.. Enumerable.Range(0, random.NextInt32(8)).Select(_ => Inside[random.NextInt32(Inside.Length)])]);
        // The letters at the end keep it from being a word for a missing value, a number or filler.
        return $"{fronts[random.NextInt32(fronts.Length)]}Q{inside}{(without.Contains(';', StringComparison.Ordinal) ? "" : random.NextInt32(3) == 0 ? ";" : "")}kx";
    }

    private static string? Maybe(RandomStream random, Func<RandomStream, string> text) => random.NextInt32(3) == 0 ? null : text(random);

    /// <summary>Above 0 and up to 1, with every digit that a double has.</summary>
    private static double Number(RandomStream random) => 1 - random.NextDouble();
}
