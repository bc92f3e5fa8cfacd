namespace TastingKit.Tests.Log.Reading;

public sealed class WatchedReadingTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tasting-log-");

    public WatchedReadingTests()
    {
        File.WriteAllText(Path.Combine(_folder.FullName, "bags.csv"), "bag_id\nB1\n");
        File.WriteAllText(Path.Combine(_folder.FullName, "tastings.csv"), "bag_id,tasted_at\n" + string.Concat(Enumerable.Range(0, 20_000).Select(i => "B1,2025-03-14\n")));
    }

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void Reading_tells_how_far_it_has_come_and_ends_with_all_of_it()
    {
        var told = new List<WorkProgress>();
        var log = TastingLog.Read(_folder.FullName, WorkWatch.Of(new Told(told.Add)));

        Assert.Equal(20_000, log.Tastings.Count);
        var shares = told.Where(progress => progress.Doing == "reading tastings.csv").Select(progress => progress.Share!.Value).ToList();
        Assert.True(shares.Count > 3);
        Assert.Equal(shares.Order(), shares);
        Assert.InRange(shares[0], 0.1, 0.3);
        Assert.Equal(1, shares[^1]);
    }

    [Fact]
    public void Reading_ends_when_it_is_told_to()
    {
        using var source = new CancellationTokenSource();
        var told = 0;
        var watch = WorkWatch.Of(
            new Told(progress =>
            {
                if (progress.Doing == "reading tastings.csv")
                {
                    told++;
                    source.Cancel();
                }
            }),
            source.Token);

        Assert.Throws<OperationCanceledException>(() => TastingLog.Read(_folder.FullName, watch));
        Assert.Equal(1, told);
    }

    [Fact]
    public void Several_folders_and_the_canonical_form_tell_how_far_they_have_come()
    {
        var other = _folder.CreateSubdirectory("other").FullName;
        foreach (var file in _folder.GetFiles())
            file.CopyTo(Path.Combine(other, file.Name));
        var (joined, canonical) = (new List<WorkProgress>(), new List<WorkProgress>());

        TastingLog.Read([_folder.FullName, other], WorkWatch.Of(new Told(joined.Add)));
        FixedLog.Of(_folder.FullName, WorkWatch.Of(new Told(canonical.Add)));

        Assert.Equal(2, joined.Count(progress => progress is { Doing: "reading tastings.csv", Share: 1 }));
        Assert.Equal("making one log of them", joined[^1].Doing);
        Assert.Contains(canonical, progress => progress is { Doing: "reading tastings.csv", Share: < 1 });
        Assert.Equal("listing changes", canonical[^1].Doing);
    }
}

/// <summary>Hands on what is told, on the spot.</summary>
internal sealed class Told(Action<WorkProgress> tell) : IProgress<WorkProgress>
{
    public void Report(WorkProgress value) => tell(value);
}
