using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>Intervals of the results that no calibration cell covers yet, on logs made here from a known truth.</summary>
public sealed class IntervalsHoldTests
{
    private const int Logs = 200;

    [Fact]
    public void The_band_over_rest_covers_the_course_as_stated_and_half_of_it_does_not()
    {
        double covered = 0, halfCovered = 0, points = 0;
        for (var seed = 0; seed < Logs; seed++)
        {
            var random = new RandomStream((ulong)(7000 + seed));
            var log = new TestLog();
            var qualities = new double[12];
            for (var bag = 0; bag < qualities.Length; bag++)
            {
                qualities[bag] = 0.4 * random.NextNormal();
                log.Bag($"B{bag}", roasted: new DateOnly(2025, 1, 1));
                for (var cup = 0; cup < 8; cup++)
                {
                    var day = 4 + (bag % 4) + (cup * 4);
                    log.Cup($"B{bag}", new DateOnly(2025, 1, 1).AddDays(day).ToString("yyyy-MM-dd", null), 6 + qualities[bag] + Course(day) + (0.4 * random.NextNormal()));
                }
            }

            // The course is that of the log's average bag; a straight line is one that the spline can follow exactly.
            foreach (var point in log.Build().RestCourse((ulong)seed).Points)
            {
                var truth = 6 + Course(point.RestDays);
                points++;
                covered += point.Low <= truth && truth <= point.High ? 1 : 0;
                halfCovered += (point.Low + point.Estimate) / 2 <= truth && truth <= (point.High + point.Estimate) / 2 ? 1 : 0;
            }
        }

        // Days of one log go together, so that 200 logs are worth about 200 to 600 independent days: three standard errors are 0.03 to 0.045.
        Assert.InRange(covered / points, 0.91, 0.99);
        Assert.InRange(halfCovered / points, 0, 0.85);

        static double Course(int day) => 0.02 * (day - 20);
    }

    [Fact]
    public void Kinds_of_coffee_are_covered_as_stated_and_half_an_interval_does_not()
    {
        string[] processes = ["washed", "natural", "honey", "wet-hulled"];
        double covered = 0, halfCovered = 0, kinds = 0;
        for (var seed = 0; seed < Logs; seed++)
        {
            var random = new RandomStream((ulong)(9000 + seed));
            var effects = processes.ToDictionary(p => p, _ => 0.3 * random.NextNormal());
            var log = new TestLog();
            var shelf = new double[24];
            for (var coffee = 0; coffee < shelf.Length; coffee++)
            {
                shelf[coffee] = 0.4 * random.NextNormal();
                var process = processes[coffee % processes.Length];
                log.Bag($"C{coffee:00}", process: process);
                for (var cup = 0; cup < 3; cup++)
                    log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 5):00}", 6 + effects[process] + shelf[coffee] + (0.4 * random.NextNormal()));
            }

            foreach (var group in log.Build().Favourites(seed: (ulong)seed).By(Factor.Process).Groups)
            {
                var truth = 6 + effects[group.Level] + shelf.Average();
                kinds++;
                covered += group.Low <= truth && truth <= group.High ? 1 : 0;
                halfCovered += (group.Low + group.Estimate) / 2 <= truth && truth <= (group.High + group.Estimate) / 2 ? 1 : 0;
            }
        }

        // 800 kinds, of which four share a log. With four levels an excess is allowed; too little is not.
        Assert.InRange(covered / kinds, 0.925, 1);
        Assert.InRange(halfCovered / kinds, 0, 0.85);
    }
}
