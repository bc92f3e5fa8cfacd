using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>
/// Favourites, brewer effects and recipe effects on 400 small years of known truth: what they state holds within three simulation
/// errors, and each of several planted faults is found out on the same years.
/// </summary>
public class AnalysesHoldTests
{
    private const int YearsTried = 400;

    private static readonly CalibrationCell Cell = CalibrationCells.Named("small-year");
    private static readonly Lazy<CellFindings> Found = new(() => CalibrationRun.Run(Cell, YearsTried, [new WithPlantedFaults()], Environment.ProcessorCount));

    [Theory]
    [InlineData("as they are: favourites: expected score, all coffees")]
    [InlineData("as they are: favourites: expected score, first ten")]
    [InlineData("as they are: favourites: expected score by country")]
    [InlineData("as they are: favourites: expected score by process")]
    [InlineData("as they are: favourites: expected score by roaster")]
    [InlineData("as they are: favourites: place, all coffees")]
    [InlineData("as they are: favourites: place, first ten")]
    [InlineData("as they are: favourites: among the best")]
    [InlineData("as they are: favourites: the best")]
    [InlineData("as they are: brewer effects: all contrasts at once")]
    [InlineData("as they are: brewer effects: any direction wrong")]
    [InlineData("as they are: recipe source effects: all contrasts at once")]
    [InlineData("as they are: recipe source effects: any direction wrong")]
    public void What_is_stated_holds(string what)
    {
        var finding = Single(what);
        Assert.True(finding.Verdict is Verdict.Kept or Verdict.Reported || finding.IsWithinError, finding.ToString());
    }

    [Theory]
    [InlineData("half the width: favourites: expected score, all coffees")]
    [InlineData("half the width: favourites: expected score by country")]
    [InlineData("half the width: favourites: place, all coffees")]
    [InlineData("swapped sign: favourites: expected score, all coffees")]
    [InlineData("half the width: brewer effects: all contrasts at once")]
    [InlineData("swapped sign: brewer effects: all contrasts at once")]
    [InlineData("swapped sign: brewer effects: any direction wrong")]
    public void A_planted_fault_is_found_out(string what)
    {
        var finding = Single(what);
        Assert.True(finding.Verdict == Verdict.Broken && !finding.IsWithinError, finding.ToString());
    }

    [Fact]
    public void Probabilities_that_are_too_bold_are_found_out()
    {
        var slope = Found.Value.Probabilities["too bold: favourites: among the best"];
        Assert.True(slope.Slope + 3 * slope.SlopeStandardError < 0.9, $"The slope is {slope.Slope} ± {slope.SlopeStandardError}.");
    }

    private static Finding Single(string what) => Found.Value.Findings.Single(finding => finding.What == what);

    /// <summary>Runs the analyses once a year, and notes what they say as it is and with faults planted in it.</summary>
    private sealed class WithPlantedFaults : ICalibratedAnalysis
    {
        public string Name => "with planted faults";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var favourites = CalibratedAnalyses.Favourites(year.Log);
            var brewers = CalibratedAnalyses.MethodEffects(year.Log, Factor.Brewer);
            var recipes = CalibratedAnalyses.MethodEffects(year.Log, Factor.RecipeFrom);
            Note("as they are", favourites);
            Note("half the width", Changed(
                favourites,
                f => f with
                {
                    Low = f.Estimate - (f.Estimate - f.Low) / 2,
                    High = f.Estimate + (f.High - f.Estimate) / 2,
                    RankLow = f.Rank - (f.Rank - f.RankLow) / 2,
                    RankHigh = f.Rank + (f.RankHigh - f.Rank) / 2,
                },
                g => g with { Low = g.Estimate - (g.Estimate - g.Low) / 2, High = g.Estimate + (g.High - g.Estimate) / 2 }));
            var middle = favourites.Coffees.Average(f => f.Estimate);
            Note("swapped sign", Changed(favourites, f => f with { Estimate = 2 * middle - f.Estimate, Low = 2 * middle - f.High, High = 2 * middle - f.Low }, g => g));
            Note("too bold", Changed(favourites, f => f with { TopProbability = f.TopProbability > 0.3 ? 1 : 0 }, g => g));
            NoteEffects("as they are", Factor.Brewer, brewers);
            NoteEffects("as they are", Factor.RecipeFrom, recipes);
            NoteEffects("half the width", Factor.Brewer, Changed(brewers, c => c with { Answer = Halved(c.Answer) }));
            NoteEffects("swapped sign", Factor.Brewer, Changed(brewers, c => c with { First = c.Second, Second = c.First }));

            void Note(string how, Favourites what) => Apart(how, new FavouritesCalibration(_ => what));
            void NoteEffects(string how, Factor factor, MethodEffects what) => Apart(how, new MethodEffectsCalibration(factor, _ => what));
            void Apart(string how, ICalibratedAnalysis analysis)
            {
                var one = new YearRecord { Year = record.Year };
                analysis.Examine(year, one);
                foreach (var (what, count) in one.Coverage)
                    record.Coverage.Add($"{how}: {what}", count);
                foreach (var (what, count) in one.Rates)
                    record.Rates.Add($"{how}: {what}", count);
                foreach (var (what, count) in one.Probabilities)
                    record.Probabilities.Add($"{how}: {what}", count);
            }
        }

        private static MethodAnswer Halved(MethodAnswer a) => a with { Low = a.Estimate - (a.Estimate - a.Low) / 2, High = a.Estimate + (a.High - a.Estimate) / 2 };

        private static Favourites Changed(Favourites favourites, Func<Favourite, Favourite> change, Func<FavouriteGroup, FavouriteGroup> changeKind) => new(
            [.. favourites.Coffees.Select(change)], favourites.TopCount, favourites.StandardBrew, favourites.Scale, favourites.Cautions,
            favourites.Computation, favourites.Support, factor => Changed(favourites.By(factor), changeKind));

        private static FavouriteGroups Changed(FavouriteGroups kinds, Func<FavouriteGroup, FavouriteGroup> change) => new(
            kinds.Factor, [.. kinds.Groups.Select(change)], kinds.StandardBrew, kinds.Scale, kinds.Cautions, kinds.Computation, kinds.Support);

        private static MethodEffects Changed(MethodEffects effects, Func<MethodContrast, MethodContrast> change) => new(
            effects.Factor, effects.Attribute, [.. effects.Contrasts.Select(change)], effects.Level, effects.Margin, effects.Scale, effects.Cautions, effects.Computation, effects.Support);
    }
}
