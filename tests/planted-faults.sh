#!/usr/bin/env bash
# Plants one fault at a time in a clone of this repository and runs the tests that should find it.
# Prints a line a fault, and exits with 1 if any was not found. Use: tests/planted-faults.sh [WORD IN THE NAME]
set -euo pipefail

root=$(git -C "$(dirname "$0")" rev-parse --show-toplevel)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
git clone -q "$root" "$work/clone"
cd "$work/clone"

missed=0
# name | file | Perl substitution, which must change the file | test project | filter
plant() {
    local name=$1 file=$2 change=$3 project=$4 filter=$5
    [[ $name == *"${wanted:-}"* ]] || return 0
    perl -0pi -e "$change" "$file"
    if git diff --quiet; then
        echo "NOT PLANTED  $name: the substitution no longer matches $file"
        missed=1
        return 0
    fi
    if ! dotnet build -c Release "tests/$project" >"$work/log" 2>&1; then
        echo "NOT BUILT    $name"
        tail -n 3 "$work/log"
        missed=1
    elif dotnet test -c Release --no-build "tests/$project" --filter "$filter" >"$work/log" 2>&1; then
        echo "NOT FOUND    $name"
        missed=1
    else
        echo "found        $name: $(grep -cE '^\s+Failed ' "$work/log") tests failed"
    fi
    git checkout -q .
}

wanted=${1:-}
analyses=src/TastingKit/Analyses
plant "favourites: interval half as wide" $analyses/PredictionDraws.cs 's/0\.025\), Quantiles\.OfSorted\(sorted, 0\.975/0.16), Quantiles.OfSorted(sorted, 0.84/' TastingKit.Tests "FullyQualifiedName~AnalysesHold|FullyQualifiedName~IntervalsHold"
plant "favourites: interval of places too narrow" src/TastingKit.Statistics/Inference/RankDistribution.cs 's/double tail = 0\.5 \* \(1 - level\)/double tail = 4 * (1 - level)/' TastingKit.Tests "FullyQualifiedName~AnalysesHold"
plant "favourites: brewer dropped from the model" $analyses/ScoreColumns.cs 's/Column\?\[\] \{ Brewer, RecipeFrom/Column?[] { RecipeFrom/' TastingKit.Tests "FullyQualifiedName~FavouritesTests"
plant "favourites: coffee's own effect left out of its score" $analyses/CoffeeModel.cs 's/function \+= Fit\.RandomEffect\(_coffee\.Name, Factor\.Coffee\.LevelOf\(any\)\);/_ = _coffee;/' TastingKit.Tests "FullyQualifiedName~FavouritesTests"
plant "kinds: sign of the kind swapped" $analyses/CoffeeModel.cs 's/\? Fit\.RandomEffect\(kind\.Column\.Name, level\)/? -1 * Fit.RandomEffect(kind.Column.Name, level)/' TastingKit.Tests "FullyQualifiedName~FavouritesTests"
plant "methods: sign swapped" $analyses/MethodAnalysis.cs 's/\? of - against : null/? against - of : null/' TastingKit.Tests "FullyQualifiedName~MethodEffectsTests"
plant "methods: between-coffee differences let in" $analyses/MethodModel.cs 's/design = WithinCoffees\.AddMeans\(design, coffee, column\);/_ = column;/' TastingKit.Tests "FullyQualifiedName~MethodEffectsTests"
plant "methods: interval half as wide" $analyses/MethodAnswers.cs 's/reach\.Multiplier \*/0.5 * reach.Multiplier */g' TastingKit.Tests "FullyQualifiedName~AnalysesHold"
plant "methods: not adjusted for each other" $analyses/MethodModel.cs 's/design = design\.WithFixed\(other\);/_ = other;/' TastingKit.Tests "FullyQualifiedName~MethodAdjustmentTests"
plant "methods: wrong step" $analyses/MethodModel.cs 's/\!\.Value \/ covariate\.Step/!.Value/' TastingKit.Tests "FullyQualifiedName~MethodSlopesTests"
plant "methods: a bend not looked for" $analyses/SlopeAnalysis.cs 's/bend\.P > BendLevel/bend.P > BendLevel - 1/' TastingKit.Tests "FullyQualifiedName~MethodSlopesTests"
plant "methods: twice the margin called too small to matter" $analyses/MethodAnswers.cs 's/sizeLow > -margin \&\& sizeHigh < margin/sizeLow > -2 * margin \&\& sizeHigh < 2 * margin/' TastingKit.Tests "FullyQualifiedName~MethodAdjustmentTests|FullyQualifiedName~MethodEffectsTests"
plant "methods: one attribute's level for all" $analyses/ProfileAnalysis.cs 's/1 - \(Rate \* Math\.Max\(1, adjusted\.Count\(p => p <= Rate\)\) \/ tested\.Length\)/1 - Rate/' TastingKit.Tests "FullyQualifiedName~MethodProfileTests"
plant "methods: attributes not held together" $analyses/ProfileAnalysis.cs 's/MultipleTesting\.BenjaminiHochberg\(\[/((IReadOnlyList<double>)[/; s/a\.P!\.Value\)\]\);/a.P!.Value)]);/' TastingKit.Tests "FullyQualifiedName~MethodProfileTests"
plant "methods: a coffee's own difference left out" $analyses/DeviationAnalysis.cs 's/function \+= Own\(model\.CoffeeCell, level\.Key, pair\);/_ = level;/' TastingKit.Tests "FullyQualifiedName~MethodProfileTests"
plant "methods: a third of the further coffees asked for" $analyses/FurtherCupsPlan.cs 's/new FurtherCups\.Needed\(2 \* pairs, found,/new FurtherCups.Needed(2 * pairs, (found + 2) \/ 3,/' TastingKit.Tests "FullyQualifiedName~MethodAnswersHold"
plant "methods: a step's interval half as wide" $analyses/MethodAnswers.cs 's/var half = reach/var half = 0.5 * reach/' TastingKit.Tests "FullyQualifiedName~MethodAnswersHold"
plant "methods: power of a lone log, not of an undecided one" $analyses/FurtherCupsPlan.cs 's/undecided > 0 \? told \/ undecided : 0/told * 2 \/ Points/' TastingKit.Tests "FullyQualifiedName~FurtherCupsTests"
plant "methods: confounding with a roaster not looked for" $analyses/MethodCautions.cs 's/AddRange\(OneKindOnly\(cups, factor\)\)/AddRange(OneKindOnly(cups, factor).Take(0))/' TastingKit.Tests "FullyQualifiedName~MethodAdjustmentTests"
plant "rest: between-bag differences let in" $analyses/RestAnalysis.cs 's/design = WithinCoffees\.AddMeans\(design, bag, column\);/_ = column;/' TastingKit.Tests "FullyQualifiedName~RestCourseTests"
plant "rest: course upside down" $analyses/RestAnalysis.cs 's/\.Select\(day => fit\.At/.Select(day => -1 * fit.At/' TastingKit.Tests "FullyQualifiedName~RestCourseTests"
plant "rest peaks: sign of the smooth swapped" $analyses/RestModel.cs 's/_smooth\.Evaluate\(at, weights\.AsSpan\(2\)\);/_smooth.Evaluate(at, weights.AsSpan(2)); for (var i = 2; i < weights.Length; i++) weights[i] = -weights[i];/' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: a rise alone called a peak" $analyses/RestDraws.cs 's/ && Higher\(top, last, perDay\) >= reach\.Peak//' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: what a kind has to itself on a brewer left out" $analyses/RestModel.cs 's/foreach \(var cell in CellsOf\(kind, columns, design\)\)/foreach (var cell in CellsOf(kind, columns, design).Take(0))/' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: cups that went wrong left in" $analyses/RestModel.cs 's/<= OneOffAnalysis\.SetAsideUpTo/< -OneOffAnalysis.SetAsideUpTo/' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: a bag's own tilt left out" $analyses/RestModel.cs 's/design = design\.WithRandomSlope\(bag, rest\);/_ = rest;/' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: bags opened late let in" $analyses/RestModel.cs 's/design = design\.WithFixed\(atFirstCup\);/_ = atFirstCup;/' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: a drift taken off the wrong way" $analyses/RestPeaksAnalysis.cs 's/perYear \/ Covariate\.DaysAYear/-perYear \/ Covariate.DaysAYear/' TastingKit.Tests "FullyQualifiedName~RestPeaksTests"
plant "rest peaks: band half as wide" $analyses/RestDraws.cs 's/OfSorted\(sorted, 0\.025\), Quantiles\.OfSorted\(sorted, 0\.975\)/OfSorted(sorted, 0.16), Quantiles.OfSorted(sorted, 0.84)/' TastingKit.Tests "FullyQualifiedName~RestPeaksHold"
plant "calendar: slope's sign swapped" $analyses/CalendarAnalysis.cs 's/y - middle/middle - y/' TastingKit.Tests "FullyQualifiedName~CalendarCourseTests"
plant "calendar: interval half as wide" src/TastingKit.Statistics/Clustered/ClusteredRegression.cs 's/degreesOfFreedom\) \* standardError/degreesOfFreedom) * standardError \/ 2/' TastingKit.Tests "FullyQualifiedName~CalendarCourseTests"
plant "order: cups permuted instead of bags" $analyses/CalendarAnalysis.cs 's/cups\.GroupBy\(c => c\.Bag\.Id\)\.Select\(bag => \(Id/cups.GroupBy(c => c.Id).Select(bag => (Id/' TastingKit.Tests "FullyQualifiedName~CalendarCourseTests"
plant "order: rise and fall swapped" src/TastingKit.Statistics/SmallTests/OrderTest.cs 's/s \+= Below\(ranks\[i\] - 1\) - \(from/s -= Below(ranks[i] - 1) - (from/' TastingKit.Tests "FullyQualifiedName~CalendarCourseTests"
plant "order: pairs of one time counted" src/TastingKit.Statistics/SmallTests/OrderTest.cs 's/times\[i \+ 1\] > times\[i\]/times[i + 1] >= times[i]/' TastingKit.Statistics.Tests "FullyQualifiedName~OrderTest"
plant "order: the order found not counted among those drawn" src/TastingKit.Statistics/SmallTests/OrderTest.cs 's/isExact \? 0 : 1;/isExact ? 0 : 0;/' TastingKit.Statistics.Tests "FullyQualifiedName~OrderTest"
plant "calendar: changes near a step not looked for" $analyses/CalendarAnalysis.cs 's/DaysNear = 30/DaysNear = -300/' TastingKit.Tests "FullyQualifiedName~CalendarCourseTests"
plant "notes: the naming cup counted as found again" $analyses/LoggedAnalysis.cs 's/\(withIt - 1\.0\) \/ \(noted\[coffee\]\.Length - 1\)/(double)withIt \/ noted[coffee].Length/' TastingKit.Tests "FullyQualifiedName~LoggedYearTests"
plant "notes: interval of a share too narrow" src/TastingKit.Statistics/Clustered/ClusteredProportion.cs 's/effective = Math\.Max\(effective, 1\)/effective = 4 * Math.Max(effective, 1)/' TastingKit.Statistics.Tests "FullyQualifiedName~ClusteredProportion"
plant "repeats: a column of the log's own not asked" $analyses/RepeatCups.cs 's/, \.\. own\.Select\(column => cup\.OtherColumns\.GetValueOrDefault\(column\)\)//; s/string KeyOf\(Tasting cup, IReadOnlyList<string> own\)\n    \{/string KeyOf(Tasting cup, IReadOnlyList<string> own)\n    {\n        _ = own;/' TastingKit.Tests "FullyQualifiedName~TastingPrecisionTests"
plant "repeats: sighted ones counted as blind" $analyses/RepeatCups.cs 's/cup\.BlindTo\.HasFlag\(BlindTo\.Coffee\)/cup.BlindTo.HasFlag(BlindTo.Nothing)/' TastingKit.Tests "FullyQualifiedName~TastingPrecisionTests"
plant "repeats: interval half as wide" src/TastingKit.Statistics/SmallTests/RoundedSpread.cs 's/double tail = 0\.5 \* \(1 - level\);\n        return new Interval\(_isZero/double tail = 0.165;\n        return new Interval(_isZero/' TastingKit.Statistics.Tests "FullyQualifiedName~RoundedSpread"
plant "repeats: steps of the scale forgotten" src/TastingKit.Statistics/SmallTests/RoundedSpread.cs 's/step > 0 \? patterns\.Sum/step > 1e9 ? patterns.Sum/' TastingKit.Statistics.Tests "FullyQualifiedName~RoundedSpread"
plant "day to day: sittings left out of the sum" $analyses/DayToDayModel.cs 's/HasSittings \? Fit\.ResidualVarianceWith\(Sitting\) : /_ = HasSittings; /; s/public VarianceSum Day => _ = HasSittings; Fit/public VarianceSum Day => Fit/' TastingKit.Tests "FullyQualifiedName~TastingPrecisionTests"
plant "day to day: interval half as wide" src/TastingKit.Statistics/Inference/VarianceSum.cs 's/tail = 0\.5 \* \(1 - level\)/tail = 0.165/' TastingKit.Statistics.Tests "FullyQualifiedName~VarianceSum"
plant "one-offs: the cup's own score let into its prediction" $analyses/OneOffAnalysis.cs 's/\(prediction\.Observed - prediction\.Mean\) \/ deviations/0.5 * (prediction.Observed - prediction.Mean) \/ deviations/; s/means\[each\.Row\] = prediction\.Mean/means[each.Row] = (prediction.Mean + prediction.Observed) \/ 2/' TastingKit.Tests "FullyQualifiedName~OneOffTests"
plant "one-offs: steps of the scale forgotten" $analyses/OneOffAnalysis.cs 's/ - \(step \/ 2\)\);/ - (0 * step));/' TastingKit.Tests "FullyQualifiedName~OneOffTests"
plant "drift: frozen days counted as rest" $analyses/DriftModel.cs 's/\(double\)c\.RestDays!\.Value/(double)(c.RestDays!.Value + c.FrozenDays)/' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "drift: sign of a stated freezer loss swapped" $analyses/DriftAnalysis.cs 's/sum\.Slope\.Plus\(loss\)/sum.Slope.Plus(-loss)/' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "drift: changes of equipment left out" $analyses/DriftModel.cs 's/            Add\(step\);/            _ = step;/' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "drift: roast date left out" $analyses/DriftModel.cs 's/            Add\(roast\);/            _ = roast;/' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "drift: numbers of the brew not held equal" $analyses/DriftModel.cs 's/\(words\.Count \+ 1\) \* MethodModel/(words.Count + 999) * MethodModel/' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "drift: interval half as wide" $analyses/DriftParts.cs 's/new\(estimate\.Value, estimate\.Low, estimate\.High/new(estimate.Value, (estimate.Value + estimate.Low) \/ 2, (estimate.Value + estimate.High) \/ 2/' TastingKit.Tests "FullyQualifiedName~DriftHolds"
plant "drift: batches that differ left out of the interval" $analyses/DriftAnalysis.cs 's/variance = left \/ degreesOfFreedom \/ squares/variance = left \/ degreesOfFreedom \/ squares \/ 100/' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "drift: named from unfrozen controls" $analyses/ScoredCups.cs 's/ *\{ Purpose: Purpose\.Control, FrozenOn: null \} when withFrozenDoses => NotFrozen,\n//' TastingKit.Tests "FullyQualifiedName~ScaleDriftTests"
plant "adjusted: drift added instead of taken out" $analyses/AdjustmentAnalysis.cs 's/written - \(years \* drift\.Estimate\)/written + (years * drift.Estimate)/' TastingKit.Tests "FullyQualifiedName~AdjustedScoresTests"
plant "adjusted: the shared error left out" $analyses/AdjustedScores.cs 's/first\.Years \* second\.Years \* error \* error/ReferenceEquals(first, second) ? first.Years * first.Years * error * error : 0/' TastingKit.Tests "FullyQualifiedName~AdjustedScoresTests"
plant "rise: earlier and later swapped" $analyses/RiseAnalysis.cs 's/asked\.Later\.Holds\(c\.TastedOn\) \? 1\.0 \/ later!\.Cups : asked\.Earlier\.Holds\(c\.TastedOn\) \? -1\.0/asked.Later.Holds(c.TastedOn) ? -1.0 \/ later!.Cups : asked.Earlier.Holds(c.TastedOn) ? 1.0/' TastingKit.Tests "FullyQualifiedName~ScoreRiseTests"
plant "rise: date of roasting left out" $analyses/RiseModel.cs 's/if \(dates\.All\(date => date == dates\[0\]\)\)/if (dates.Length > 0)/' TastingKit.Tests "FullyQualifiedName~ScoreRiseTests"
plant "draws: what is known to differ left out" src/TastingKit.Statistics/Inference/VariancePrior.cs 's/options\.KnownToDiffer\.Contains\(\(group, effect\)\) \? /false ? /' TastingKit.Statistics.Tests "FullyQualifiedName~JointDrawsTests"
plant "rise: kinds that may be drawn alike" $analyses/RiseModel.cs 's/KnownToDiffer = \[\.\. _randomKinds/KnownToDiffer = [.. _randomKinds.Take(0)/' TastingKit.Tests "FullyQualifiedName~RiseHoldsTests"
plant "rise: cups brewed again taken for a chance" $analyses/RiseCautions.cs 's/cautions\.Add\(again\);/_ = again;/' TastingKit.Tests "FullyQualifiedName~ScoreCautionsTests"
plant "rise: changes of equipment left out" $analyses/RiseModel.cs 's/foreach \(var day in changes\)/foreach (var day in changes.Take(0))/' TastingKit.Tests "FullyQualifiedName~ScoreRiseTests"
plant "rise: what brewers do to one process and not to another left out" $analyses/RiseModel.cs 's/\(_columns\.RecipeFrom, Factor\.RecipeFrom\.Name\) \}\)/(_columns.RecipeFrom, Factor.RecipeFrom.Name) }.Take(0))/' TastingKit.Tests "FullyQualifiedName~RiseHoldsTests"
plant "rise: bags that run over rest in ways of their own left out" $analyses/RiseModel.cs 's/foreach \(var run in new\[\] \{ tilt, bend \}\)/foreach (var run in new[] { tilt, bend }.Take(0))/' TastingKit.Tests "FullyQualifiedName~RiseHoldsTests"
plant "carry-over: the sitting left in what is expected of a cup" $analyses/CarryOver.cs 's/value - \(sittings is null \? 0 : ofSitting\[sittings\.Codes\[row\]\]\)/value - (0 * ofSitting.Length * row)/' TastingKit.Tests "FullyQualifiedName~ScoreCautionsTests"
plant "rest: what is known of kinds and bags beforehand left out" src/TastingKit.Statistics/Inference/VariancePrior.cs 's/TryGetValue\(\(group, effect\), out double own\) \? own : options/TryGetValue((group, effect), out double own) \&\& own < 0 ? own : options/' TastingKit.Statistics.Tests "FullyQualifiedName~JointDrawsTests"
plant "brewed again: taken for a chance" $analyses/BrewedAgain.cs 's/return !isBeyondChance \? null/return isBeyondChance ? null/' TastingKit.Tests "FullyQualifiedName~ScoreCautionsTests"
plant "sittings: called alike on every day taken for one" src/TastingKit/Log/Tasting.cs 's/Session is null \? null : \$"\{TastedOn:O\} \{Session\}"/Session/' TastingKit.Tests "FullyQualifiedName~ScoreCautionsTests"
plant "one-offs: cups drawn to the one before not looked for" $analyses/OneOffAnalysis.cs 's/EquipmentChanged\(log, cups\), alike \}/EquipmentChanged(log, cups), alike is null ? null : null }/' TastingKit.Tests "FullyQualifiedName~OneOffTests"
plant "rise: interval half as wide" $analyses/RiseDraws.cs 's/OfSorted\(sorted, 0\.025\), Quantiles\.OfSorted\(sorted, 0\.975\)/OfSorted(sorted, 0.16), Quantiles.OfSorted(sorted, 0.84)/' TastingKit.Tests "FullyQualifiedName~RiseHolds"
plant "rise: drift left in the share of rest" $analyses/RiseDraws.cs 's/value - \(rested \* a\[draw\]\)/value - (0 * rested * a[draw])/' TastingKit.Tests "FullyQualifiedName~ScoreRiseTests"
plant "rise: drift counted among the coffees too" $analyses/RiseDraws.cs 's/value - \(\(years - rested\) \* a\[draw\]\)/value/' TastingKit.Tests "FullyQualifiedName~ScoreRiseTests"
plant "rise: a kind bought in one stretch alone not looked for" $analyses/RiseCautions.cs 's/ShareInOnePeriod = 0\.25/ShareInOnePeriod = 25/' TastingKit.Tests "FullyQualifiedName~ScoreRiseTests"
plant "plan: doses' spread over the year counted twice" $analyses/DriftPlanAnalysis.cs 's/\(12\.0 \* n\)/(6.0 * n)/g' TastingKit.Tests "FullyQualifiedName~DriftPlanTests"
plant "scale use: sign of a movement swapped" $analyses/ThresholdModel.cs 's/At\(j, quarter\) - means\[j\]/means[j] - At(j, quarter)/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "scale use: the common movement let in" $analyses/ThresholdModel.cs 's/moved\[j\] - common/moved[j] - (0 * common)/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "scale use: quarters left out of the model that the test is against" $analyses/ThresholdModel.cs 's/design\.WithFixed\(quarter\), Options/design, Options/; s/== \(count - 1\) \* \(groups\.Count - 2\)/> 0/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "scale use: bags that hold together taken as single cups" $analyses/ScaleUseAnalysis.cs 's/ClusteredProportion\.Of\(hits, bags\)/ClusteredProportion.Of(hits, [.. hits.Select((_, i) => i)])/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "scale use: cups that went wrong left in" $analyses/ScaleUseAnalysis.cs 's/!oneOffs\.Contains\(cups\[i\]\)/oneOffs.Count >= 0/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "one-offs: an attribute judged by the score" $analyses/OneOffAnalysis.cs 's/cups\[row\]\.ValueOf\(scale\.Attribute\)!/cups[row].Score!/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "ordinal: what a level joins of other terms left out of the inverse" src/TastingKit.Statistics/Ordinal/EffectSystem.cs 's/: \(1\.0 \+ CrossCovariance\(level\)\)/: (1.0 + (0 * CrossCovariance(level)))/' TastingKit.Statistics.Tests "FullyQualifiedName~EffectSystem|FullyQualifiedName~OrdinalLikelihood"
plant "scale use: the end of the scale forgotten" $analyses/ScaleCeiling.cs 's/Where\(step => step <= highestStep\)/Where(step => step <= highestStep + 40)/' TastingKit.Tests "FullyQualifiedName~ScaleUseTests"
plant "label: sign swapped" $analyses/LabelPairs.cs 's/seen\.Average\(Value\) - hidden\.Average\(Value\)/hidden.Average(Value) - seen.Average(Value)/' TastingKit.Tests "FullyQualifiedName~LabelEffectTests"
plant "label: order left out" $analyses/LabelModel.cs 's/HasOrder => SeenFirst > 0/HasOrder => SeenFirst > 1000/' TastingKit.Tests "FullyQualifiedName~LabelEffectTests"
plant "label: a coffee counted to its own reputation" $analyses/LabelPairs.cs 's/other\.Coffee\.Id != coffee\.Id/other.Coffee.Id.Length > 0/' TastingKit.Tests "FullyQualifiedName~LabelEffectTests"
plant "label: cups of other sittings paired" $analyses/RepeatCups.cs 's/CultureInfo\.InvariantCulture\), cup\.Session, cup/CultureInfo.InvariantCulture), cup/' TastingKit.Tests "FullyQualifiedName~LabelEffectTests"
plant "scale use: interval half as wide" $analyses/ThresholdModel.cs 's/TwoSidedQuantile\(0\.05, Residual\) \*/TwoSidedQuantile(0.05, Residual) * 0.5 */' TastingKit.Tests "FullyQualifiedName~ScaleUseHolds"
plant "label: interval half as wide" $analyses/LabelAnalysis.cs 's/estimate\.Value, estimate\.Low, estimate\.High, pairs\.Sum/estimate.Value, (estimate.Value + estimate.Low) \/ 2, (estimate.Value + estimate.High) \/ 2, pairs.Sum/' TastingKit.Tests "FullyQualifiedName~LabelHolds"
plant "simulator: a coded cup given what its label adds" src/TastingKit/Simulation/SimulatedTastings.cs 's/coded \? 0 : taster\.LabelAdds/coded \&\& day < 0 ? 0 : taster.LabelAdds/' TastingKit.Tests "FullyQualifiedName~KeptCups"
plant "ranks: the lowest counted as best" src/TastingKit.Statistics/Inference/Ranks.cs 's/RankOrder\.HighestFirst \? -1 : 1/RankOrder.HighestFirst ? 1 : -1/' TastingKit.Tests "FullyQualifiedName~FavouritesTests"
plant "reading: a score off its scale let in" src/TastingKit/Log/Reading/ScoreColumn.cs 's/if \(!scale\.Contains\(value\)\)/if (!scale.Contains(value) \&\& value < 0)/' TastingKit.Tests "FullyQualifiedName~TastingKit.Tests.Log|FullyQualifiedName~Reading"
plant "reading: an identifier used twice let in" src/TastingKit/Log/Reading/BlindTestTable.cs 's/!lines\.TryAdd\(testId, rowReports\.Line\)/false/' TastingKit.Tests "FullyQualifiedName~TastingKit.Tests.Log|FullyQualifiedName~Reading"
log=src/TastingKit/Log
plant "accepting: the values beside left out of what is confirmed" $log/Reading/AcceptedTable.cs 's/problem\.Column, problem\.Found, problem\.Beside\)/problem.Column, problem.Found, "")/' TastingKit.Tests "FullyQualifiedName~ConfirmationTests"
plant "accepting: a rejected finding confirmed away" $log/Reading/AcceptedTable.cs 's/is not \{ CanBeAccepted: true \} known/is not { } known/' TastingKit.Tests "FullyQualifiedName~ConfirmationTests"
plant "writing: a text with its own apostrophe not marked" $log/FormulaMark.cs 's/text\.TrimStart\(.{4}\) is/text is/' TastingKit.Tests "FullyQualifiedName~FormulaMarkTests"
plant "writing: into the file itself" $log/Writing/WholeFiles.cs 's/file\.Name \+ Unfinished/file.Name/' TastingKit.Tests "FullyQualifiedName~Writing"
plant "canonical form: cells left missing not listed" $log/Writing/CellChanges.cs 's/if \(to != cell\.Text\)/if (to != cell.Text \&\& to.Length > 0)/' TastingKit.Tests "FullyQualifiedName~FixedLogTests"
plant "years: scales moved the wrong way" $log/Joining/AlignedScales.cs 's/\(written - From\.Min\) \/ \(From\.Max - From\.Min\)/(From.Max - written) \/ (From.Max - From.Min)/' TastingKit.Tests "FullyQualifiedName~Joining"
plant "years: a cup in two folders counted twice" $log/Joining/LogJoin.cs 's/LogDifference\.AreSame\(earlier, moved\)/LogDifference.AreSame(earlier, moved) \&\& earlier.Id.Length == 0/' TastingKit.Tests "FullyQualifiedName~Joining"
plant "checking: any score let pass for a sum" $log/Checking/ScoreSums.cs 's/<= Allowance/<= 100 * Allowance/' TastingKit.Tests "FullyQualifiedName~TastingKit.Tests.Log"
plant "charts: interval half as wide" src/TastingKit.Charts/IntervalRows.cs 's/x\.AddRange\(_rows\[i\]\.Low, _rows\[i\]\.High, null\)/x.AddRange((_rows[i].Low + _rows[i].Estimate) \/ 2, (_rows[i].High + _rows[i].Estimate) \/ 2, null)/' TastingKit.Charts.Tests "FullyQualifiedName~Charts"
plant "rendering: markup of a log let through" src/TastingKit/Rendering/HtmlText.cs "s/'<' => escaped\.Append\(\"&lt;\"\)/'<' => escaped.Append('<')/" TastingKit.Tests "FullyQualifiedName~Rendering"
planning=src/TastingKit/Planning
plant "next brew: a sitting left out of a cup" $analyses/CoffeeModel.cs 's/function \+= Intercept\(session, ScoreColumns\.SessionOf\(planned\)\);/_ = session;/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: a sitting left out of a brewer's cup" $analyses/MethodModel.cs 's/levels\["session"\] = ScoreColumns\.SessionOf\(planned\)/levels["session"] = ScoreColumns.SessionOf(Columns.Cups[0])/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: a coffee's own level not left free" $planning/MethodInquiry.cs 's/compared\.Joint, Factor\.Coffee\.Name\)/compared.Joint)/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: a cup given the means of all coffees" $analyses/MethodTerm.cs 's/\? setting\.With\(mean\.Name, mean\.Values\[row\]\) : setting/? setting.With(mean.Name, mean.Mean + (0 * row)) : setting/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: another interval than the one shown" $analyses/MethodAnalysis.cs 's/all\.Multiplier \* all\.StandardDeviations\[found\.Index\]/Quantiles.Normal95 * all.StandardDeviations[found.Index]/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: chance left out of what a cup is worth" src/TastingKit.Statistics/Inference/FurtherObservations.cs 's/PredictiveVariance\(int observed\) => NoiseVariance \+ _covariance/PredictiveVariance(int observed) => 0.5 * NoiseVariance + _covariance/' TastingKit.Statistics.Tests "FullyQualifiedName~FurtherObservations"
plant "next brew: a new level without its variance" src/TastingKit.Statistics/Inference/FurtherObservations.cs 's/\+= first \* second \* variance/+= 0 * first * second * variance/' TastingKit.Statistics.Tests "FullyQualifiedName~FurtherObservations"
plant "next brew: the least gain chosen" $planning/NextBrewAnalysis.cs 's/open\.MaxBy\(i => state\.With\(i\)\.Gain\)/open.MinBy(i => state.With(i).Gain)/; s/possible\.Select\(\(each, i\) => \(each\.Option, Gain: state\.With\(i\)\)\)\.OrderByDescending/possible.Select((each, i) => (each.Option, Gain: state.With(i))).OrderBy/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: grams not taken off by the plan" $planning/BrewKitchen.cs 's/candidate\.GramsLeft - \(taken\.GetValueOrDefault\(candidate\.Bag\.Id\) \* Grams\)/candidate.GramsLeft - (0 * taken.GetValueOrDefault(candidate.Bag.Id) * Grams)/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: half doses counted whole" $planning/BrewCandidates.cs 's/Serving == Serving\.Whole \? 1 : 0\.5/Serving == Serving.Whole ? 1 : 1/' TastingKit.Tests "FullyQualifiedName~NextBrewTests"
plant "next brew: the best named by the wrong interval" src/TastingKit.Statistics/Inference/BestNaming.cs 's/if \(faster > 0\) low/if (faster < 0) low/; s/else if \(faster < 0\) high/else if (faster > 0) high/' TastingKit.Statistics.Tests "FullyQualifiedName~BestNaming"
exit $missed
