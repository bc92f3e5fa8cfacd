using System.Security.Cryptography;

namespace TastingKit.Tests.Simulation;

/// <summary>A year is the same to the byte on every machine, and stays so from version to version until it is changed on purpose.</summary>
public sealed class SameBytesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("same-bytes").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Theory]
    [InlineData(1, "dee22786973eed67")]
    [InlineData(77, "5a07095795e69e87")]
    public void A_year_of_all_defaults_has_the_bytes_it_had(ulong seed, string hash) => Assert.Equal(hash, HashOf(new SimulationSettings(), seed, "default"));

    [Fact]
    public void A_year_with_every_habit_has_the_bytes_it_had()
    {
        var settings = new SimulationSettings
        {
            Taster = new SimulatedTaster { DriftPerYear = 0.4, CarryOver = 0.2, AnchoringOnLastScore = 0.2, LabelPremium = 0.2 },
            Schedule = new SimulatedSchedule { FreezerLossPerYear = 0.2, Changes = [new SimulatedChange(new DateOnly(2025, 9, 1), "water", "a", "b", 0.3)] },
            Habits = new SimulatedHabits
            {
                DropBagsBelow = 6.0,
                BrewAgainBelow = 6.0,
                PoorCupCalledFailed = 0.5,
                LastBrewerLate = true,
                BestBrewerKept = true,
                Ceiling = 8,
                SpoiledShare = 0.03,
            },
        };
        Assert.Equal("cac9a9c9381afa16", HashOf(settings, 5, "habits"));
    }

    [Fact]
    public void Another_seed_gives_another_year() => Assert.NotEqual(HashOf(new SimulationSettings(), 1, "one"), HashOf(new SimulationSettings(), 2, "two"));

    /// <summary>The hash of the year's CSV files, one after the other by name.</summary>
    private string HashOf(SimulationSettings settings, ulong seed, string name)
    {
        var folder = Path.Combine(_folder, name);
        Years.Log(settings, seed).Write(folder);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in Directory.GetFiles(folder).Order(StringComparer.Ordinal))
            hash.AppendData(File.ReadAllBytes(file));
        return Convert.ToHexStringLower(hash.GetHashAndReset())[..16];
    }
}
