namespace TastingKit.Tests;

public sealed class WorkWatchTests
{
    private static readonly TastingLog Log = SimulatedYear.Create(new SimulationSettings(), 5).Log;

    [Fact]
    public void A_watched_log_gives_the_results_of_one_that_is_not()
    {
        var told = new Told();
        Assert.Equal(Log.Favourites().ToString(), Log.WatchedBy(WorkWatch.Of(told)).Favourites().ToString());
        Assert.NotEmpty(told.All);
    }

    [Fact]
    public void Each_step_of_the_work_begins_and_ends_and_never_goes_back()
    {
        var told = new Told();
        _ = Log.WatchedBy(WorkWatch.Of(told)).Favourites();
        Assert.Equal(["fitting", "drawing variances", "drawing effects"], told.All.Select(p => p.Share is null ? "fitting" : p.Doing).Distinct());
        foreach (var step in told.All.Where(p => p.Share is not null).GroupBy(p => p.Doing))
        {
            var shares = step.Select(p => p.Share!.Value).ToArray();
            Assert.Equal(shares.Order(), shares);
            Assert.InRange(shares[0], 0, 0.1);
            Assert.Equal(1, shares[^1]);
            Assert.Equal(1, shares.Count(share => share == 1));
        }
    }

    [Theory]
    [InlineData("favourites")]
    [InlineData("method")]
    [InlineData("rest")]
    public void An_analysis_ends_when_it_is_told_to(string analysis)
    {
        using var source = new CancellationTokenSource();
        var seen = 0;
        var log = Log.WatchedBy(WorkWatch.Of(
            new Called(p =>
            {
                if (p.Doing != "drawing variances")
                    return;
                Interlocked.Increment(ref seen);
                source.Cancel();
            }),
            source.Token));
        Assert.ThrowsAny<OperationCanceledException>(() =>
        {
            _ = analysis switch
            {
                "favourites" => (TastingResult)log.Favourites(),
                "method" => log.MethodEffects(Factor.Brewer),
                _ => log.RestCourse(),
            };
        });
        // A hundred reports or more make a whole step: it was left within its first turns.
        Assert.InRange(seen, 1, 10);
    }

    [Fact]
    public void A_kind_asked_for_after_the_end_is_refused_and_no_wrong_result_is_kept()
    {
        using var source = new CancellationTokenSource();
        var favourites = Log.WatchedBy(WorkWatch.Of(null, source.Token)).Favourites();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => favourites.By(Factor.RoastLevel));
        Assert.Equal(Log.Favourites().By(Factor.Process).ToString(), favourites.By(Factor.Process).ToString());
    }

    [Fact]
    public void A_narrowed_log_is_watched_as_the_whole_was()
    {
        using var source = new CancellationTokenSource();
        var first = Log.WatchedBy(WorkWatch.Of(null, source.Token)).Where(cup => cup.Score > 1);
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => first.RestCourse());
    }

    private sealed class Told : IProgress<WorkProgress>
    {
        private readonly List<WorkProgress> _all = [];

        public IReadOnlyList<WorkProgress> All
        {
            get
            {
                lock (_all)
                    return [.. _all];
            }
        }

        public void Report(WorkProgress value)
        {
            lock (_all)
                _all.Add(value);
        }
    }

    private sealed class Called(Action<WorkProgress> action) : IProgress<WorkProgress>
    {
        public void Report(WorkProgress value) => action(value);
    }
}
