using TastingKit.Calibration;
using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class ScoreCautionsTests
{
    [Fact]
    public void Scores_that_pile_up_at_the_top_are_called_a_ceiling()
    {
        Assert.Contains(Year(mostGiven: 6.5).Favourites().Cautions, c => c.Name == "ceiling" && c.Text.Contains("share the highest score given, 6.5", StringComparison.Ordinal));
        Assert.DoesNotContain(Year(mostGiven: 9).Favourites().Cautions, c => c.Name == "ceiling");
        Assert.Contains(Year(mostGiven: 6.5).MethodEffects(Factor.Brewer).Cautions, c => c.Name == "ceiling");
    }

    [Fact]
    public void Scores_drawn_to_the_last_one_are_called_alike()
    {
        Assert.Contains(Year(drawnToLast: 0.5).Favourites().Cautions, c => c.Name == "neighbours-alike");
        Assert.DoesNotContain(Year().Favourites().Cautions, c => c.Name == "neighbours-alike");
    }

    [Fact]
    public void Cups_that_take_after_the_one_before_are_told_wherever_that_spoils_an_answer()
    {
        Assert.All(Carried(0.4), text => Assert.StartsWith("A cup is scored higher after a good cup", text, StringComparison.Ordinal));
        Assert.All(Carried(0), Assert.Null);

        static string?[] Carried(double carried)
        {
            var matching = CalibrationCells.MatchingYear;
            var log = SimulatedYear.Create(matching with { Taster = matching.Taster with { CarryOver = carried } }, 3).Log;
            return
            [
                .. new TastingResult[] { log.Repeatability(), log.ScoreRise(), log.CalendarCourse() }
                    .Select(result => result.Cautions.SingleOrDefault(caution => caution.Name == "carried-over")?.Text),
            ];
        }
    }

    [Fact]
    public void What_a_sitting_does_to_all_its_cups_is_no_sign_that_one_takes_after_another()
    {
        var matching = CalibrationCells.MatchingYear;
        var told = Enumerable.Range(0, 40).Count(seed => SimulatedYear.Create(matching with { Taster = matching.Taster with { SessionStandardDeviation = 0.4 } }, (ulong)seed).Log
            .Repeatability().Cautions.Any(caution => caution.Name == "carried-over"));
        // At a level of a fiftieth five of forty come by chance in one of a thousand runs.
        Assert.True(told < 5, $"{told} of 40");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    public void Cups_brewed_again_for_their_score_are_told_by_the_repeatability(double calledFailed)
    {
        var matching = CalibrationCells.MatchingYear;
        string[] Told(SimulatedHabits habits) =>
        [
            .. Enumerable.Range(0, 20).SelectMany(seed => SimulatedYear.Create(matching with { Habits = habits }, (ulong)seed).Log.Repeatability().Cautions)
                .Where(caution => caution.Name == "brewed-again").Select(caution => caution.Text),
        ];

        var told = Told(new SimulatedHabits { BrewAgainBelow = 6.0, PoorCupCalledFailed = calledFailed });
        Assert.True(told.Length >= 18, $"{told.Length} of 20");
        Assert.All(told, text => Assert.Contains("points below what was to be expected of them: poor cups", text, StringComparison.Ordinal));
        Assert.All(told, text => Assert.EndsWith("the others scatter less than all did.", text, StringComparison.Ordinal));
        // At a level of a fiftieth four of twenty come by chance in one of a thousand runs.
        Assert.True(Told(new SimulatedHabits()).Length < 4);
    }

    [Fact]
    public void Cups_brewed_again_for_their_score_are_told_by_the_rise()
    {
        var matching = CalibrationCells.MatchingYear;
        var rise = SimulatedYear.Create(matching with { Habits = new SimulatedHabits { BrewAgainBelow = 6.0 } }, 3).Log.ScoreRise();
        Assert.EndsWith("its mean leans on them.", Assert.Single(rise.Cautions, caution => caution.Name == "brewed-again").Text, StringComparison.Ordinal);
        Assert.DoesNotContain(SimulatedYear.Create(matching, 3).Log.ScoreRise().Cautions, caution => caution.Name == "brewed-again");
    }

    [Fact]
    public void A_sitting_called_alike_on_every_day_is_one_of_each_day()
    {
        var log = SimulatedYear.Create(CalibrationCells.MatchingYear, 3).Log;
        var places = log.Tastings.Where(cup => cup.Session is not null).GroupBy(cup => cup.TastedOn)
            .ToDictionary(day => day.Key, day => day.Select(cup => cup.Session).Distinct().ToList());
        var alike = new TastingLog(new LogContents
        {
            Name = log.Name,
            Bags = log.Bags,
            Tastings = [.. log.Tastings.Select(cup => cup with { Session = cup.Session is null ? null : $"sitting {places[cup.TastedOn].IndexOf(cup.Session) + 1}" })],
            Scales = log.StatedScales,
            Changes = log.Changes,
        });
        Assert.True(alike.Tastings.Select(cup => cup.Session).Distinct().Count() < 5);
        Assert.Equal(Answers(log), Answers(alike));

        static string[] Answers(TastingLog log) =>
        [
            .. new TastingResult[] { log.Repeatability(), log.ScoreRise(), log.CalendarCourse(), log.MethodEffects(Factor.Brewer) }
                .SelectMany(result => result.Summary.Concat(result.Cautions.Select(caution => caution.Text))),
        ];
    }

    [Fact]
    public void A_change_of_water_within_the_days_tasted_is_named()
    {
        Assert.Contains(Year(change: "2025-02-01").Favourites().Cautions, c => c.Name == "equipment-changed" && c.Text.Contains("water on 2025-02-01", StringComparison.Ordinal));
        Assert.DoesNotContain(Year(change: "2024-12-01").Favourites().Cautions, c => c.Name == "equipment-changed");
    }

    private static TastingLog Year(double mostGiven = 9, double drawnToLast = 0, string? change = null)
    {
        var log = new TestLog();
        var random = new RandomStream(21);
        for (var coffee = 0; coffee < 20; coffee++)
        {
            var quality = 0.5 * random.NextNormal();
            double? last = null;
            for (var cup = 0; cup < 8; cup++)
            {
                var impression = 6 + quality + (0.5 * random.NextNormal());
                var drawn = last is { } before ? ((1 - drawnToLast) * impression) + (drawnToLast * before) : impression;
                last = Math.Min(mostGiven, Math.Round(2 * drawn) / 2);
                log.Cup($"C{coffee:00}", new DateOnly(2025, 1, 1).AddDays((coffee * 3) + (cup * 4)).ToString("yyyy-MM-dd", null), last, cup % 2 == 0 ? "cone dripper" : "flat-bed dripper");
            }
        }

        if (change is not null)
            log.Change(change, "water");
        return log.Build();
    }
}
